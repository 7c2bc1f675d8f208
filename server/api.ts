import type { IncomingMessage } from 'node:http';
import { LIMITS } from '../common/protocol/limits.ts';
import { mayManage, ROLES, type Role } from '../common/protocol/roles.ts';
import { type AddressAllowance, isLoopback } from './address-allowance.ts';
import { type Bands, readBandName } from './bands.ts';

/** What is answered to an HTTP call, as JSON. */
export interface Answer {
  readonly status: number;
  readonly body: Readonly<Record<string, unknown>>;
}

export interface ApiSurroundings {
  readonly bands: Bands;
  readonly codeTries: AddressAllowance;
  readonly bandsMade: AddressAllowance;
  readonly nowMs: () => number;
  readonly keyRenewed: (band: string, role: Role) => void;
  readonly renamed: (band: string, name: string) => void;
  readonly isLocked: (band: string) => boolean;
  readonly addresses: () => readonly string[];
  readonly health: () => Readonly<Record<string, unknown>>;
}

interface Call {
  readonly method: string;
  /** Path without its query, decoded: ['api', 'bands', …]. */
  readonly path: readonly string[];
  readonly key: string;
  readonly address: string;
  readonly body: () => Promise<unknown>;
}

const no = (status: number, words: string): Answer => ({ status, body: { words } });
const yes = (body: Readonly<Record<string, unknown>>, status = 200): Answer => ({ status, body });

const BAD_KEY = no(401, 'This link is not valid here. Ask the leader for a new one.');
const LEADERS_ONLY = no(403, 'Only the leader’s link allows this.');
const LOCKED = no(423, 'The book is locked for the gig. Rename the band when it is unlocked.');
const NOT_FOUND = no(404, 'There is nothing at this address.');

class BadBody extends Error {}
class LargeBody extends Error {}

/** @throws {BadBody | LargeBody} */
export const readBody = (request: IncomingMessage): Promise<unknown> =>
  new Promise((done, failed) => {
    const parts: Buffer[] = [];
    let length = 0;
    request.on('data', (part: Buffer) => {
      length += part.length;
      // What is too large is read on and thrown away, so that the answer finds somebody who listens.
      if (length > LIMITS.bodyBytes) failed(new LargeBody());
      else parts.push(part);
    });
    request.on('error', () => failed(new BadBody()));
    request.on('close', () => failed(new BadBody()));
    request.on('end', () => {
      try {
        done(JSON.parse(Buffer.concat(parts).toString()));
      } catch {
        // The parser's own words are about positions; what to do is said in the answer.
        failed(new BadBody());
      }
    });
  });

const field = (body: unknown, name: string): unknown =>
  typeof body === 'object' && body !== null ? (body as Record<string, unknown>)[name] : undefined;

/** The answers to all HTTP calls beside the pages. */
export const createApi = (around: ApiSurroundings) => {
  const { bands } = around;

  const makeBand = async (call: Call): Promise<Answer> => {
    const name = readBandName(field(await call.body(), 'name'));
    if (!name.ok) return no(400, name.error);
    // Programs on this machine may do as they like with it.
    if (!isLoopback(call.address) && !around.bandsMade.take(call.address, around.nowMs())) {
      return no(429, 'Many bands were made from here just now. Wait a minute and try again.');
    }
    const made = bands.make(name.value);
    around.renamed(made.band, name.value);
    return yes(made, 201);
  };
  const enter = async (call: Call): Promise<Answer> => {
    const code = field(await call.body(), 'code');
    if (typeof code !== 'string' || !/^\d{6}$/.test(code.replace(/\s/g, ''))) {
      return no(400, 'An evening code has six digits.');
    }
    // Right codes cost nothing: a whole band types its code behind one address.
    if (!around.codeTries.has(call.address, around.nowMs())) {
      return no(429, 'Too many wrong codes from here. Wait a minute, then try again.');
    }
    const entered = bands.enter(code.replace(/\s/g, ''));
    if (entered !== null) return yes({ ...entered, role: 'player' });
    around.codeTries.take(call.address, around.nowMs());
    return no(404, 'No band has this code tonight. Look at it once more, or ask the leader.');
  };
  const ofBand = async (call: Call, band: string, what: string | undefined): Promise<Answer> => {
    const role = bands.roleOf(band, call.key);
    if (role === null) return BAD_KEY;
    if (what === undefined && call.method === 'GET') return yes({ band, name: bands.nameOf(band), role });
    if (!mayManage(role)) return LEADERS_ONLY;
    switch (`${call.method} ${what ?? ''}`) {
      case 'PUT ': {
        const name = readBandName(field(await call.body(), 'name'));
        if (!name.ok) return no(400, name.error);
        if (around.isLocked(band)) return LOCKED;
        bands.rename(band, name.value);
        around.renamed(band, name.value);
        return yes({ band, name: name.value });
      }
      case 'POST keys': {
        const renewed = field(await call.body(), 'role');
        if (!ROLES.some((one) => one === renewed)) {
          return no(400, 'Say whose key to renew: {"role": "leader", "player" or "reader"}.');
        }
        const key = bands.renew(band, renewed as Role);
        around.keyRenewed(band, renewed as Role);
        return yes({ key, role: renewed });
      }
      case 'GET code':
        return yes({ code: bands.codeOf(band) });
      case 'POST code':
        return yes({ code: bands.renewCode(band) });
      default:
        return NOT_FOUND;
    }
  };
  const route = async (call: Call): Promise<Answer> => {
    const [first, second, third, fourth, ...rest] = call.path;
    if (first === 'health') return yes({ ok: true, ...around.health() });
    if (rest.length > 0) return NOT_FOUND;
    if (second === 'bands' && third === undefined) {
      return call.method === 'POST' ? makeBand(call) : NOT_FOUND;
    }
    if (second === 'bands' && third !== undefined) return ofBand(call, third, fourth);
    if (second === 'code' && third === undefined && call.method === 'POST') return enter(call);
    if (second === 'addresses' && third === undefined && call.method === 'GET') {
      return yes({ urls: around.addresses() });
    }
    return NOT_FOUND;
  };
  return async (call: Call): Promise<Answer> => {
    try {
      return await route(call);
    } catch (error) {
      if (error instanceof BadBody) return no(400, 'The body of this request is not JSON.');
      if (error instanceof LargeBody) return no(413, 'The body of this request is too large.');
      throw error;
    }
  };
};

export type Api = ReturnType<typeof createApi>;
