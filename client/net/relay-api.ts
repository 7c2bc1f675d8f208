import { ROLES, type Role } from '../../common/protocol/roles.ts';
import { failed, ok, type Result } from '../../common/result.ts';

/** What the relay answers over HTTP, or a sentence for the person. */
export type Reply<Value> = Result<Value, { readonly status: number; readonly words: string }>;

export interface NewBand {
  readonly band: string;
  readonly keys: Readonly<Record<Role, string>>;
}

export interface BandInfo {
  readonly band: string;
  readonly name: string;
  readonly role: Role;
}

const NOT_REACHED =
  'The relay does not answer. Is this tablet on the same network as the machine it runs on? Try again in a moment.';
const ODD_ANSWER =
  'Something answered that is not this program’s relay. Open the link the leader gave you once more.';

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isText = (value: unknown): value is string => typeof value === 'string';
const isRole = (value: unknown): value is Role => ROLES.some((role) => role === value);

/** How long an answer may take, in ms. */
const PATIENCE_MS = 6000;

/** Asks the relay that served this page, and knows no other. */
export const relayApi = (origin: string) => {
  const ask = async <Value>(
    method: 'GET' | 'POST' | 'PUT',
    path: string,
    read: (body: unknown) => Value | undefined,
    { key, body, sentences = {} }: AskParts = {},
  ): Promise<Reply<Value>> => {
    const end = new AbortController();
    const timer = setTimeout(() => end.abort(), PATIENCE_MS);
    try {
      const response = await fetch(`${origin}/api/${path}`, {
        method,
        signal: end.signal,
        headers: {
          ...(body === undefined ? {} : { 'content-type': 'application/json' }),
          ...(key === undefined ? {} : { authorization: `Bearer ${key}` }),
        },
        ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      });
      const answer: unknown = await response.json().catch(() => undefined);
      if (!response.ok) {
        const words = isRecord(answer) && isText(answer['words']) ? answer['words'] : undefined;
        return failed({
          status: response.status,
          words: sentences[response.status] ?? words ?? `The relay said no (${response.status}).`,
        });
      }
      const value = read(answer);
      return value === undefined ? failed({ status: 0, words: ODD_ANSWER }) : ok(value);
    } catch (error) {
      console.info('The relay was not reached.', error);
      return failed({ status: 0, words: NOT_REACHED });
    } finally {
      clearTimeout(timer);
    }
  };
  const bandPath = (band: string) => `bands/${encodeURIComponent(band)}`;
  const badKey = { 401: BAD_KEY, 403: LEADERS_ONLY, 404: BAD_KEY };

  return {
    makeBand: (name: string) =>
      ask(
        'POST',
        'bands',
        (answer): NewBand | undefined => {
          if (!isRecord(answer) || !isText(answer['band']) || !isRecord(answer['keys'])) return undefined;
          const { leader, player, reader } = answer['keys'];
          if (!isText(leader) || !isText(player) || !isText(reader)) return undefined;
          return { band: answer['band'], keys: { leader, player, reader } };
        },
        {
          body: { name },
          sentences: { 429: 'Many bands were made from here just now. Wait a minute and try again.' },
        },
      ),
    lookAtBand: (band: string, key: string) =>
      ask(
        'GET',
        bandPath(band),
        (answer): BandInfo | undefined =>
          isRecord(answer) && isText(answer['name']) && isRole(answer['role'])
            ? { band, name: answer['name'], role: answer['role'] }
            : undefined,
        { key, sentences: badKey },
      ),
    renameBand: (band: string, key: string, name: string) =>
      ask('PUT', bandPath(band), () => true as const, { key, body: { name }, sentences: badKey }),
    renewKey: (band: string, key: string, role: Role) =>
      ask(
        'POST',
        `${bandPath(band)}/keys`,
        (answer) => (isRecord(answer) && isText(answer['key']) ? answer['key'] : undefined),
        { key, body: { role }, sentences: badKey },
      ),
    makeCode: (band: string, key: string) =>
      ask('POST', `${bandPath(band)}/code`, codeFrom, { key, sentences: badKey }),
    codeInForce: (band: string, key: string) =>
      ask('GET', `${bandPath(band)}/code`, codeFrom, { key, sentences: badKey }),
    redeemCode: (code: string) =>
      ask(
        'POST',
        'code',
        (answer) => {
          if (!isRecord(answer) || !isText(answer['band']) || !isText(answer['key'])) return undefined;
          const name = isText(answer['name']) ? answer['name'] : '';
          return { band: answer['band'], name, key: answer['key'], role: 'player' as const };
        },
        {
          body: { code },
          sentences: {
            401: WRONG_CODE,
            404: WRONG_CODE,
            429: 'Too many wrong codes from here. Wait a minute, then try again.',
          },
        },
      ),
    /** Origins at which this relay answers on the local network. */
    addresses: () =>
      ask('GET', 'addresses', (answer) =>
        isRecord(answer) && Array.isArray(answer['urls']) ? answer['urls'].filter(isText) : undefined,
      ),
  };
};

export type RelayApi = ReturnType<typeof relayApi>;

interface AskParts {
  readonly key?: string;
  readonly body?: unknown;
  readonly sentences?: Readonly<Record<number, string>>;
}

const BAD_KEY = 'This link is not valid any more. Ask the leader for a new one.';
const LEADERS_ONLY = 'Only the leader’s link allows this.';
const WRONG_CODE = 'No band has this code tonight. Look at it once more, or ask the leader.';

const codeFrom = (answer: unknown): { readonly code: string | null } | undefined => {
  if (!isRecord(answer)) return answer === null ? { code: null } : undefined;
  const { code } = answer;
  return isText(code) ? { code } : code === null ? { code: null } : undefined;
};
