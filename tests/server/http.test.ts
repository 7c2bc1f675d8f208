import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { LIMITS } from '../../common/protocol/limits.ts';
import { PROTOCOL_VERSION } from '../../common/protocol/version.ts';
import { staticFiles } from '../../server/static-files.ts';
import { rawSocket } from './support/raw-socket.ts';
import { afterThis, makeBand, testRelay } from './support/test-relay.ts';

const api = async (http: string, method: string, path: string, key = '', body?: unknown) => {
  const response = await fetch(`${http}/api/${path}`, {
    method,
    headers: { authorization: `Bearer ${key}` },
    ...(body === undefined ? {} : { body: typeof body === 'string' ? body : JSON.stringify(body) }),
  });
  return { status: response.status, body: (await response.json()) as Record<string, unknown> };
};

describe('bands', () => {
  it('are made with a key for each role, 128 bits each', async () => {
    const { http } = await testRelay();
    const made = await api(http, 'POST', 'bands', '', { name: ' Harbour  Street\nFive ' });
    expect(made.status).toBe(201);
    const keys = made.body['keys'] as Record<string, string>;
    expect(Object.keys(keys)).toEqual(['leader', 'player', 'reader']);
    for (const key of Object.values(keys)) expect(Buffer.from(key, 'base64url')).toHaveLength(16);
    for (const [role, key] of Object.entries(keys)) {
      expect(await api(http, 'GET', `bands/${made.body['band']}`, key)).toEqual({
        status: 200,
        body: { band: made.body['band'], name: 'Harbour Street Five', role },
      });
    }
  });

  it('keep no key that could be read from the disk', async () => {
    const relay = await testRelay();
    const { keys } = await makeBand(relay.http);
    const rows = JSON.stringify(relay.store.database.prepare('select * from keys').all());
    for (const key of Object.values(keys)) expect(rows).not.toContain(key);
  });

  it('are renamed by the leader alone, in the book as well', async () => {
    const relay = await testRelay();
    const { band, keys } = await makeBand(relay.http);
    expect((await api(relay.http, 'PUT', `bands/${band}`, keys.player, { name: 'B' })).status).toBe(403);
    expect((await api(relay.http, 'PUT', `bands/${band}`, keys.leader, { name: 'Quay Six' })).status).toBe(
      200,
    );
    expect((await api(relay.http, 'GET', `bands/${band}`, keys.reader)).body['name']).toBe('Quay Six');
    expect(relay.rooms.open(band, 'book').read((doc) => doc.getMap('band').get('name'))).toBe('Quay Six');
  });

  it('renew a key: the old one is worth nothing, and who came with it is told so', async () => {
    const { http, ws } = await testRelay();
    const { band, keys } = await makeBand(http);
    const player = await rawSocket(`${ws}/sync/${band}/book?key=${keys.player}`);
    const reader = await rawSocket(`${ws}/sync/${band}/book?key=${keys.reader}`);
    const renewed = await api(http, 'POST', `bands/${band}/keys`, keys.leader, { role: 'player' });
    expect(renewed.status).toBe(200);
    expect(await player.closed).toEqual({
      code: 4410,
      reason: 'The leader has renewed this link. Ask for the new one.',
    });
    expect(reader.socket.readyState).toBe(reader.socket.OPEN);
    expect((await api(http, 'GET', `bands/${band}`, keys.player)).status).toBe(401);
    expect((await api(http, 'GET', `bands/${band}`, String(renewed.body['key']))).body['role']).toBe(
      'player',
    );
  });
});

describe('the evening code', () => {
  it('has six digits, lets a player in, and is void when renewed', async () => {
    const { http } = await testRelay();
    const { band, keys } = await makeBand(http);
    expect((await api(http, 'GET', `bands/${band}/code`, keys.leader)).body).toEqual({ code: null });
    const { code } = (await api(http, 'POST', `bands/${band}/code`, keys.leader)).body as { code: string };
    expect(code).toMatch(/^\d{6}$/);
    expect((await api(http, 'GET', `bands/${band}/code`, keys.leader)).body).toEqual({ code });
    const entered = await api(http, 'POST', 'code', '', { code });
    expect(entered.body).toMatchObject({ band, name: 'Harbour Street Five', role: 'player' });
    expect((await api(http, 'GET', `bands/${band}`, String(entered.body['key']))).body['role']).toBe(
      'player',
    );
    await api(http, 'POST', `bands/${band}/code`, keys.leader);
    const again = await api(http, 'POST', 'code', '', { code });
    expect(again.status).toBe(404);
    expect((await api(http, 'POST', `bands/${band}/code`, keys.player)).status).toBe(403);
  });

  it('cannot be guessed: an address has few wrong tries', async () => {
    const { http } = await testRelay();
    const tries = await Promise.all(
      Array.from({ length: LIMITS.codeTries + 5 }, (_, nth) =>
        api(http, 'POST', 'code', '', { code: String(100_000 + nth) }),
      ),
    );
    expect(tries.filter(({ status }) => status === 404)).toHaveLength(LIMITS.codeTries);
    expect(tries.filter(({ status }) => status === 429)).toHaveLength(5);
  });
});

describe('bad requests', () => {
  it.each([
    ['no JSON', 'POST', 'bands', '{', 400],
    ['no name', 'POST', 'bands', {}, 400],
    ['a name that is a number', 'POST', 'bands', { name: 7 }, 400],
    ['an empty name', 'POST', 'bands', { name: ' \n ' }, 400],
    ['a long name', 'POST', 'bands', { name: 'x'.repeat(200) }, 400],
    ['null', 'POST', 'bands', 'null', 400],
    ['a large body', 'POST', 'bands', { name: 'x'.repeat(100_000) }, 413],
    ['a short code', 'POST', 'code', { code: '123' }, 400],
    ['an unknown band', 'GET', 'bands/nobody', undefined, 401],
    ['an odd address', 'GET', 'bands/a/b/c/d', undefined, 404],
    ['an unknown call', 'POST', 'sing', {}, 404],
    ['a stray %', 'GET', '%zz', undefined, 400],
  ])('are answered with words: %s', async (_, method, path, body, status) => {
    const { http } = await testRelay();
    const answer = await api(http, method, path, '', body);
    expect(answer.status).toBe(status);
    expect(answer.body['words']).toMatch(/^[A-Z].*\.$/);
  });

  it('that are no HTTP do no harm', async () => {
    const { http, port } = await testRelay();
    const socket = connect(port, '127.0.0.1');
    socket.resume().on('error', () => {
      // A reset is as good an end as any.
    });
    socket.write('\x16\x03\x01 hello\r\n\r\n');
    await new Promise((done) => socket.once('close', done));
    expect((await fetch(`${http}/health`)).status).toBe(200);
  });
});

describe('the pages', () => {
  const folder = () => {
    const made = mkdtempSync(join(tmpdir(), 'tillcue-page-'));
    afterThis(async () => rmSync(made, { recursive: true, force: true }));
    mkdirSync(join(made, 'assets'));
    writeFileSync(join(made, 'index.html'), '<!doctype html><title>Tillcue</title>');
    writeFileSync(join(made, 'assets', 'app-abc.js'), 'x = 1;\n'.repeat(500));
    return made;
  };

  it('are served with their headers, and may be kept as long as their names say', async () => {
    const files = staticFiles(folder());
    const { http } = await testRelay({ pages: () => files });
    const index = await fetch(`${http}/`);
    expect(await index.text()).toContain('<title>Tillcue</title>');
    expect(index.headers.get('cache-control')).toBe('no-cache');
    const policy = index.headers.get('content-security-policy') ?? '';
    expect(policy).toContain("default-src 'self'");
    expect(policy).toContain(`connect-src 'self' ws://${new URL(http).host}`);
    expect(policy).toContain("frame-ancestors 'none'");
    expect(index.headers.get('referrer-policy')).toBe('no-referrer');
    const asset = await fetch(`${http}/assets/app-abc.js`);
    expect(asset.headers.get('cache-control')).toContain('immutable');
    expect(asset.headers.get('content-encoding')).toBe('gzip');
    expect((await asset.text()).length).toBe(3_500);
    const again = await fetch(`${http}/`, { headers: { 'if-none-match': index.headers.get('etag') ?? '' } });
    expect(again.status).toBe(304);
  });

  it('are served in parts where a part is asked for', async () => {
    const files = staticFiles(folder());
    const { http } = await testRelay({ pages: () => files });
    const part = async (range: string) => {
      const response = await fetch(`${http}/assets/app-abc.js`, { headers: { range } });
      return [response.status, response.headers.get('content-range'), (await response.text()).length];
    };
    expect(await part('bytes=0-1')).toEqual([206, 'bytes 0-1/3500', 2]);
    expect(await part('bytes=3490-')).toEqual([206, 'bytes 3490-3499/3500', 10]);
    expect(await part('bytes=-5')).toEqual([206, 'bytes 3495-3499/3500', 5]);
    expect(await part('bytes=9000-')).toEqual([200, null, 3_500]);
    expect(await part('lines=1-2')).toEqual([200, null, 3_500]);
  });

  it('lead nowhere else', async () => {
    const files = staticFiles(folder());
    const { http } = await testRelay({ pages: () => files });
    expect(await (await fetch(`${http}/stand/x`)).text()).toContain('Tillcue');
    for (const path of ['/assets/gone.js', '/..%2f..%2fetc/passwd.txt', '/%2e%2e/package.json']) {
      expect((await fetch(`${http}${path}`)).status).toBe(404);
    }
    expect((await fetch(`${http}/`, { method: 'DELETE' })).status).toBe(405);
  });
});

it('tells how it is', async () => {
  const { http } = await testRelay();
  const health = await fetch(`${http}/health`);
  expect(health.status).toBe(200);
  expect(await health.json()).toMatchObject({ ok: true, protocol: PROTOCOL_VERSION, connections: 0 });
  expect(await (await fetch(`${http}/api/addresses`)).json()).toEqual({ urls: [] });
});
