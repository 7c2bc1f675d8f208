import type { Cue } from '../../common/stage/cue.ts';
import { judge } from '../../common/stage/judge.ts';
import type { Performance } from '../../common/stage/perform.ts';
import type { Announcement } from '../../common/stage/place.ts';
import type { Face, PodiumKey } from './podium-key.ts';

/** How a key stands at a moment, and what it shows. */
export type KeyState =
  | { readonly state: 'ready'; readonly face: Face & { readonly cue: Cue } }
  /** Called already and not landed yet. */
  | { readonly state: 'called'; readonly face: Face }
  /** It would make sense, but nobody would hear it; `words` say why. */
  | { readonly state: 'away'; readonly face: Face & { readonly cue: Cue }; readonly words: string }
  /** It makes no sense now: the key goes blank; `words` say why to who asks. */
  | { readonly state: 'blank'; readonly face: Face; readonly words: string };

/** The fields that make two cues of a kind different keys; numbers may have been set anew since. */
const SORTS = ['kind', 'at', 'dynamic', 'feel'] as const;

const sortOf = (cue: Cue): string => {
  const fields: Partial<Record<(typeof SORTS)[number], unknown>> = cue;
  return SORTS.map((name) => fields[name] ?? '').join(' ');
};

/** Two ways of saying the same, told apart by a number: how many bars a turn is, which way a ramp goes. */
const isSame = (one: Cue, other: Cue): boolean => {
  if (sortOf(one) !== sortOf(other)) return false;
  if (one.kind === 'trade' && other.kind === 'trade') return one.bars === other.bars;
  if (one.kind === 'tempo' && other.kind === 'tempo') return one.bpm === other.bpm;
  return true;
};

/**
 * How the key stands at shared time `nowMs`.
 * @param announced what is announced at that moment
 * @param away the relay does not answer: what could be called is out of use
 */
export const keyState = (
  { faces }: Pick<PodiumKey, 'faces'>,
  performance: Performance,
  announced: readonly Announcement[],
  nowMs: number,
  away = false,
): KeyState => {
  const pending = performance.take.cues.filter(({ id }) =>
    announced.some((one) => one.id === id && !one.landed),
  );
  const isPending = (cue: Cue) => pending.some((one) => one.cue.kind !== 'takeBack' && isSame(one.cue, cue));
  let words = '';
  let ready: Extract<KeyState, { state: 'ready' }> | null = null;
  for (const face of faces) {
    const { cue } = face;
    if (typeof cue === 'string') {
      words = cue;
      continue;
    }
    if (isPending(cue)) return { state: 'called', face };
    if (ready !== null) continue;
    const verdict = judge(performance, cue, nowMs);
    if (verdict.ok) ready = { state: 'ready', face: { ...face, cue } };
    else words = verdict.words;
  }
  if (ready !== null) return away ? { ...ready, state: 'away', words: 'The relay does not answer.' } : ready;
  return { state: 'blank', face: faces.at(-1) ?? faces[0], words };
};
