import { describe, expect, it } from 'vitest';
import { networkOrigins } from '../../server/addresses.ts';
import { readConfig } from '../../server/config.ts';
import { createLog, redact } from '../../server/log.ts';

describe('the configuration', () => {
  it('has a default for everything', () => {
    expect(readConfig([], {})).toEqual({
      ok: true,
      value: { port: 4321, host: '0.0.0.0', data: 'data', logLevel: 'warn', origins: [] },
    });
  });

  it('takes the command line before the environment', () => {
    const read = readConfig(['--port', '8080', '--data=/srv/x', '--origin', 'https://board.example'], {
      TILLCUE_PORT: '1',
      TILLCUE_DATA: 'y',
      TILLCUE_HOST: '127.0.0.1',
    });
    expect(read.ok && read.value).toMatchObject({
      port: 8080,
      data: '/srv/x',
      host: '127.0.0.1',
      origins: ['https://board.example'],
    });
  });

  it.each([
    [['--port', 'eighty'], 'The port must be a number from 0 to 65535, not "eighty".'],
    [['--port', '65536'], 'The port must be a number from 0 to 65535, not "65536".'],
    [['--port'], '--port needs a value.'],
    [['--sing', '1'], '"--sing" is not known here.'],
    [['8080'], '"8080" is not known here.'],
    [['--log', 'loud'], 'The log level must be debug, info, warn or error, not "loud".'],
    [['--origin', 'board.example'], 'An origin looks like https://board.example, not "board.example".'],
  ])('says what is wrong with %j', (args, words) => {
    expect(readConfig(args, {})).toEqual({ ok: false, error: words });
  });
});

describe('the origins on the network', () => {
  const face = (address: string, internal = false) =>
    ({ address, family: 'IPv4', internal, netmask: '', mac: '', cidr: null }) as const;

  it('names the likeliest first and leaves out this machine', () => {
    expect(
      networkOrigins('0.0.0.0', 80, {
        lo: [face('127.0.0.1', true)],
        d: [face('172.17.0.1')],
        w: [face('192.168.1.5')],
      }),
    ).toEqual(['http://192.168.1.5:80', 'http://172.17.0.1:80']);
  });

  it('has none where the relay listens for this machine alone, and one where it listens on one address', () => {
    expect(networkOrigins('127.0.0.1', 80, { w: [face('192.168.1.5')] })).toEqual([]);
    expect(networkOrigins('10.0.0.9', 80, { w: [face('192.168.1.5')] })).toEqual(['http://10.0.0.9:80']);
  });
});

describe('the log', () => {
  it('writes JSON lines from its level on, without keys', () => {
    const lines: string[] = [];
    const log = createLog(
      'warn',
      (line) => lines.push(line),
      () => 0,
    );
    log.info('quiet');
    log.warn('loud', { url: '/sync/b/book?key=secret&acks=1', error: new Error('key=secret') });
    expect(lines).toHaveLength(1);
    expect(lines[0]?.endsWith('\n')).toBe(true);
    expect(JSON.parse(lines[0] ?? '')).toMatchObject({
      at: '1970-01-01T00:00:00.000Z',
      level: 'warn',
      event: 'loud',
      url: '/sync/b/book?key=…&acks=1',
    });
  });

  it('lets no key through, wherever it stands', () => {
    for (const text of [
      '/live/b?member=a&key=SECRET',
      'http://x/#join/b/SECRET',
      'authorization: Bearer SECRET',
    ]) {
      expect(redact(text)).not.toContain('SECRET');
    }
  });
});
