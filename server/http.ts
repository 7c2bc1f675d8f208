import type { IncomingMessage, ServerResponse } from 'node:http';
import { type Answer, type Api, readBody } from './api.ts';
import type { Log } from './log.ts';
import type { securityHeaders } from './security-headers.ts';

/** What shows the pages: the built files, or the development server. False where it has nothing at that path. */
export type Pages = (
  request: IncomingMessage,
  response: ServerResponse,
  path: string,
) => boolean | Promise<boolean>;

const send = (response: ServerResponse, answer: Answer) => {
  const body = JSON.stringify(answer.body);
  response.writeHead(answer.status, {
    'content-type': 'application/json; charset=utf-8',
    'content-length': Buffer.byteLength(body),
    'cache-control': 'no-store',
  });
  response.end(body);
};

const pathOf = (url: string): string | null => {
  try {
    return decodeURIComponent(url.split('?', 1)[0] ?? '/');
  } catch {
    // A stray % in an address.
    return null;
  }
};

const KEY = /^Bearer\s+(\S+)$/i;

/** Answers HTTP requests; whatever is sent, never with more than a clear refusal. */
export const httpHandler =
  (api: Api, pages: Pages, headers: typeof securityHeaders, log: Log) =>
  async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    try {
      for (const [name, value] of Object.entries(headers(request.headers.host)))
        response.setHeader(name, value);
      const path = pathOf(request.url ?? '/');
      if (path === null) {
        send(response, { status: 400, body: { words: 'This address cannot be read.' } });
        return;
      }
      if (path === '/health' || path === '/api' || path.startsWith('/api/')) {
        const answer = await api({
          method: request.method ?? 'GET',
          path: path.split('/').slice(1),
          key: KEY.exec(request.headers.authorization ?? '')?.[1] ?? '',
          address: request.socket.remoteAddress ?? '',
          body: () => readBody(request),
        });
        send(response, answer);
        return;
      }
      if (request.method !== 'GET' && request.method !== 'HEAD') {
        send(response, { status: 405, body: { words: 'Pages can only be read.' } });
        return;
      }
      if (!(await pages(request, response, path))) {
        send(response, { status: 404, body: { words: 'There is nothing at this address.' } });
      }
    } catch (error) {
      log.error('an answer failed', { path: request.url, error });
      if (!response.headersSent)
        send(response, { status: 500, body: { words: 'The relay could not do that.' } });
      else response.destroy();
    }
  };
