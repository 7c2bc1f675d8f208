import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { extname, join, relative, sep } from 'node:path';
import { gzipSync } from 'node:zlib';

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

interface Page {
  readonly type: string;
  readonly plain: Buffer;
  /** Compressed when first asked for: starting stays quick. */
  readonly gzip: () => Buffer | null;
  readonly etag: string;
  readonly cacheControl: string;
}

const pageOf = (path: string, bytes: Buffer): Page => {
  const type = TYPES[extname(path)] ?? 'application/octet-stream';
  let compressed: Buffer | null | undefined;
  return {
    type,
    plain: bytes,
    gzip: () => {
      if (compressed === undefined) {
        const made = COMPRESSIBLE.test(type) && bytes.length > 500 ? gzipSync(bytes, { level: 9 }) : null;
        compressed = made !== null && made.length < bytes.length ? made : null;
      }
      return compressed;
    },
    etag: `"${createHash('sha256').update(bytes).digest('base64url').slice(0, 22)}"`,
    // The build puts a hash of the content into the names of what stands in assets/.
    cacheControl: path.startsWith('/assets/') ? 'public, max-age=31536000, immutable' : 'no-cache',
  };
};

const filesIn = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));

/** Answers with a page where there is one, else returns false. */
export type StaticFiles = (request: IncomingMessage, response: ServerResponse, path: string) => boolean;

/**
 * The built page, held in memory: it is small, and no path can lead out of its folder. An address without an
 * extension is the page itself, whatever view it names.
 * @throws where the folder is not there: it has not been built
 */
export const staticFiles = (folder: string): StaticFiles => {
  const pages = new Map(
    filesIn(folder).map((file) => {
      const path = `/${relative(folder, file).split(sep).join('/')}`;
      return [path, pageOf(path, readFileSync(file))] as const;
    }),
  );
  const index = pages.get('/index.html');
  return (request, response, path) => {
    const page = pages.get(path) ?? (extname(path) === '' ? index : undefined);
    if (page === undefined) return false;
    response.setHeader('etag', page.etag);
    response.setHeader('cache-control', page.cacheControl);
    response.setHeader('vary', 'accept-encoding');
    if (request.headers['if-none-match']?.split(/,\s*/).includes(page.etag)) {
      response.writeHead(304).end();
      return true;
    }
    const gzip = /\bgzip\b/.test(request.headers['accept-encoding'] ?? '') ? page.gzip() : null;
    if (gzip !== null) response.setHeader('content-encoding', 'gzip');
    const body = gzip ?? page.plain;
    response.writeHead(200, { 'content-type': page.type, 'content-length': body.length });
    response.end(request.method === 'HEAD' ? undefined : body);
    return true;
  };
};
