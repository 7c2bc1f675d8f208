import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { extname, join, relative, sep } from 'node:path';
import { promisify } from 'node:util';
import { gzip } from 'node:zlib';
import type { Pages } from './http.ts';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.txt': 'text/plain; charset=utf-8',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.mp4': 'video/mp4',
  '.webm': 'video/webm',
  '.wasm': 'application/wasm',
};
/** The others are compressed in themselves. */
const COMPRESSIBLE = /^(text|application|image\/svg)/;

const compress = promisify(gzip);

interface Page {
  readonly type: string;
  readonly bytes: Buffer;
  /** Compressed when first asked for, in a thread of its own; null where that saves nothing. */
  readonly compressed: () => Promise<Buffer | null>;
  readonly etag: string;
  readonly cacheControl: string;
}

const pageOf = (path: string, bytes: Buffer): Page => {
  const type = TYPES[extname(path)] ?? 'application/octet-stream';
  const isWorthIt = COMPRESSIBLE.test(type) && bytes.length > 500;
  let compressed: Promise<Buffer | null> | null = null;
  return {
    type,
    bytes,
    compressed: () => {
      compressed ??= isWorthIt ? compress(bytes, { level: 9 }) : Promise.resolve(null);
      return compressed;
    },
    etag: `"${createHash('sha256').update(bytes).digest('base64url').slice(0, 22)}"`,
    // The build puts a hash of the content into the names of what stands in assets/.
    cacheControl: path.startsWith('/assets/') ? 'public, max-age=31536000, immutable' : 'no-cache',
  };
};

/**
 * The part of a file that a player of videos asks for (RFC 9110 §14.2), end excluded: some play nothing from who
 * cannot serve parts. null for anything but one plain range within the file, which is then served whole.
 */
const readRange = (header: string | undefined, length: number): { from: number; to: number } | null => {
  const [, first = '', last = ''] = /^bytes=(\d*)-(\d*)$/.exec(header ?? '') ?? [];
  if (first === '' && last === '') return null;
  const from = first === '' ? Math.max(0, length - Number(last)) : Number(first);
  const to = first === '' || last === '' ? length : Math.min(length, Number(last) + 1);
  return from < to ? { from, to } : null;
};

const respond = async (page: Page, request: IncomingMessage, response: ServerResponse): Promise<void> => {
  response.setHeader('etag', page.etag);
  response.setHeader('cache-control', page.cacheControl);
  response.setHeader('vary', 'accept-encoding');
  response.setHeader('content-type', page.type);
  if (request.headers['if-none-match']?.split(/,\s*/).includes(page.etag)) {
    response.writeHead(304).end();
    return;
  }
  const range = readRange(request.headers.range, page.bytes.length);
  const takesGzip = range === null && /\bgzip\b/.test(request.headers['accept-encoding'] ?? '');
  const compressed = takesGzip ? await page.compressed() : null;
  if (compressed !== null) response.setHeader('content-encoding', 'gzip');
  response.setHeader('accept-ranges', 'bytes');
  if (range !== null) {
    response.setHeader('content-range', `bytes ${range.from}-${range.to - 1}/${page.bytes.length}`);
  }
  const body = range === null ? (compressed ?? page.bytes) : page.bytes.subarray(range.from, range.to);
  response.writeHead(range === null ? 200 : 206, { 'content-length': body.length });
  response.end(request.method === 'HEAD' ? undefined : body);
};

const filesIn = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));

/**
 * The built page, held in memory: it is small, and no path can lead out of its folder. An address without an
 * extension is the page itself, whatever view it names.
 * @throws where the folder is not there: it has not been built
 */
export const staticFiles = (folder: string): Pages => {
  const pages = new Map(
    filesIn(folder).map((file) => {
      const path = `/${relative(folder, file).split(sep).join('/')}`;
      return [path, pageOf(path, readFileSync(file))] as const;
    }),
  );
  const index = pages.get('/index.html');
  return async (request, response, path) => {
    const page = pages.get(path) ?? (extname(path) === '' ? index : undefined);
    if (page === undefined) return false;
    await respond(page, request, response);
    return true;
  };
};
