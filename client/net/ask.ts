import { failed, type Result } from '../../common/result.ts';

/** What the relay answers over HTTP, or a sentence for the person. */
export type Reply<Value> = Result<Value, { readonly status: number; readonly words: string }>;

export interface AskParts {
  readonly key?: string;
  readonly body?: unknown;
  readonly sentences?: Readonly<Record<number, string>>;
}

/** One question to the relay; `read` gives undefined for an answer that makes no sense. */
export type Ask = <Value>(
  method: 'GET' | 'POST' | 'PUT',
  path: string,
  read: (body: unknown) => Value | undefined,
  parts?: AskParts,
) => Promise<Reply<Value>>;

/** The answer where nothing answers. */
export const NOT_REACHED = failed({
  status: 0,
  words:
    'The relay does not answer. Is this tablet on the same network as the machine it runs on? Try again in a moment.',
});
