import { failed, ok } from '../../common/result.ts';
import { type Ask, NOT_REACHED } from './ask.ts';

const ODD_ANSWER =
  'Something answered that is not this program’s relay. Open the link the leader gave you once more.';
const BAD_KEY = 'This link is not valid any more. Ask the leader for a new one.';
const LEADERS_ONLY = 'Only the leader’s link allows this.';

/** What a key that is refused means to the person. */
export const BAD_KEY_SENTENCES = { 401: BAD_KEY, 403: LEADERS_ONLY, 404: BAD_KEY };

export const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
export const isText = (value: unknown): value is string => typeof value === 'string';

export const bandPath = (band: string): string => `bands/${encodeURIComponent(band)}`;

/** How long an answer may take, in ms. */
const PATIENCE_MS = 6000;

/** Asks the relay that served this page, and knows no other. */
export const askRelay =
  (origin: string): Ask =>
  async (method, path, read, { key, body, sentences = {} } = {}) => {
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
      return NOT_REACHED;
    } finally {
      clearTimeout(timer);
    }
  };
