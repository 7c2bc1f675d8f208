import type { Road } from '../../common/form/road.ts';
import type { Cue } from '../../common/stage/cue.ts';
import { judge } from '../../common/stage/judge.ts';
import type { Performance } from '../../common/stage/perform.ts';
import type { Announcement } from '../../common/stage/place.ts';

/** The three columns of the podium: a key stands where its cue lands. */
export type Column = 'now' | 'phrase' | 'chorus';

/** What the leader has set for the cues that take a number. */
export interface KeySettings {
  readonly breakBars: number;
  readonly tagBars: number;
  readonly tagTimes: number;
}

export interface PodiumKey {
  readonly id: string;
  readonly column: Column;
  readonly family: Announcement['family'];
  readonly name: string;
  /** What it does, in few words. */
  readonly detail: string;
  /** null: there is nothing to call, the place stays blank. */
  readonly cue: Cue | null;
}

const bars = (n: number): string => (n === 1 ? '1 bar' : `${n} bars`);

/**
 * The keys in their places. Their order never changes, so that a hand learns where they are.
 * @param edited the road of the chart as edited meanwhile, where it differs from the one being played
 */
export const podiumKeys = (
  { breakBars, tagBars, tagTimes }: KeySettings,
  edited: Road | null,
): readonly PodiumKey[] => [
  {
    id: 'start',
    column: 'now',
    family: 'more',
    name: 'Count in',
    detail: 'from the top',
    cue: { kind: 'start' },
  },
  { id: 'stop', column: 'now', family: 'out', name: 'Stop', detail: 'everyone out', cue: { kind: 'stop' } },
  {
    id: 'break',
    column: 'phrase',
    family: 'out',
    name: 'Break',
    detail: `hit on one, ${bars(breakBars)}`,
    cue: { kind: 'break', bars: breakBars, at: 'phrase' },
  },
  {
    id: 'soloBreak',
    column: 'phrase',
    family: 'out',
    name: 'Solo break',
    detail: `the last ${bars(breakBars)}`,
    cue: { kind: 'break', bars: breakBars, at: 'lastBars' },
  },
  {
    id: 'lastChorus',
    column: 'chorus',
    family: 'close',
    name: 'Last chorus',
    detail: 'then on',
    cue: { kind: 'lastChorus' },
  },
  {
    id: 'oneMore',
    column: 'chorus',
    family: 'more',
    name: 'One more',
    detail: 'once again',
    cue: { kind: 'oneMore' },
  },
  {
    id: 'goOn',
    column: 'chorus',
    family: 'move',
    name: 'Go on',
    detail: 'out of the vamp',
    cue: { kind: 'goOn' },
  },
  {
    id: 'adopt',
    column: 'chorus',
    family: 'move',
    name: 'New arrangement',
    detail: 'is ready: take it',
    cue: edited === null ? null : { kind: 'adopt', road: edited },
  },
  {
    id: 'breakAtTop',
    column: 'chorus',
    family: 'out',
    name: 'Break at the top',
    detail: `hit on one, ${bars(breakBars)}`,
    cue: { kind: 'break', bars: breakBars, at: 'pass' },
  },
  {
    id: 'tag',
    column: 'chorus',
    family: 'more',
    name: `Tag ×${tagTimes}`,
    detail: `the last ${bars(tagBars)}`,
    cue: { kind: 'tag', bars: tagBars, times: tagTimes },
  },
  {
    id: 'stopAtEnd',
    column: 'chorus',
    family: 'out',
    name: 'Stop at the end',
    detail: 'of this chorus',
    cue: { kind: 'stop', at: 'pass' },
  },
];

/** How a key stands at a moment. */
export type KeyState =
  | { readonly state: 'ready' }
  /** It makes no sense now: the key goes blank; `words` say why to who asks. */
  | { readonly state: 'blank'; readonly words: string }
  /** Called already and not landed yet. */
  | { readonly state: 'called' };

/**
 * How the key stands at shared time `nowMs`.
 * @param pending what is announced at that moment
 */
export const keyState = (
  key: PodiumKey,
  performance: Performance,
  pending: readonly Announcement[],
  nowMs: number,
): KeyState => {
  const { cue } = key;
  if (cue === null) return { state: 'blank', words: 'Nothing has been changed.' };
  const called = performance.take.cues.some(
    (entry) => isSame(entry.cue, cue) && pending.some(({ id, landed }) => id === entry.id && !landed),
  );
  if (called) return { state: 'called' };
  const verdict = judge(performance, cue, nowMs);
  return verdict.ok ? { state: 'ready' } : { state: 'blank', words: verdict.words };
};

/** The same kind at the same kind of boundary; the numbers may have been set anew since. */
const isSame = (one: { kind: string; at?: string }, other: { kind: string; at?: string }): boolean =>
  one.kind === other.kind && one.at === other.at;
