import type { Road } from '../form/road.ts';
import type { Called, Cue, Take } from './cue.ts';
import { refusal } from './cue-rule.ts';
import { roadAt } from './in-force.ts';
import { judge, judgeTakeBack, type Refused, refused } from './judge.ts';
import { locate } from './locate.ts';
import { type Performance, perform } from './perform.ts';
import { isTempo } from './tempo.ts';

export interface ConductState {
  readonly take: Take | null;
  /** Of `take`, where the caller has it already; else it is folded here. */
  readonly performance?: Performance;
}

export interface Call {
  readonly id: string;
  readonly cue: Cue;
  readonly by?: string;
}

export interface ConductContext {
  /** The chart that a callTune names, where it exists; `semitones` as the key asked for reads it. */
  readonly chart?: {
    readonly id: string;
    readonly title: string;
    readonly road: Road;
    readonly semitones?: number;
  };
  readonly newTakeId: string;
}

export type Effect =
  | { readonly kind: 'newTake'; readonly take: Take; readonly called: Called }
  | { readonly kind: 'append'; readonly called: Called }
  /** The id was called before: nothing changes, this is what it was then. */
  | { readonly kind: 'repeat'; readonly called: Called };

export type Conducted = { readonly ok: true; readonly effect: Effect } | Refused;

const no = (why: string, words: string): Refused => refused(refusal(why, words));

/** The stamp of a call: shared time, but never before the cue before it. */
const stamp = (take: Take | null, atMs: number): number => {
  let latest = atMs;
  for (const { calledAtMs } of take?.cues ?? []) if (calledAtMs > latest) latest = calledAtMs;
  return latest;
};

const newTake = (take: Omit<Take, 'cues'>, called: Called, before: readonly Called[] = []): Conducted => ({
  ok: true,
  effect: { kind: 'newTake', take: { ...take, cues: [...before, called] }, called },
});

const callTune = (
  state: ConductState,
  cue: Extract<Cue, { kind: 'callTune' }>,
  called: Called,
  { chart, newTakeId }: ConductContext,
): Conducted => {
  const { take } = state;
  if (take) {
    const verdict = judge(state.performance ?? perform(take), cue, called.calledAtMs);
    if (!verdict.ok) return verdict;
  }
  if (!chart) return no('noSuchChart', 'Nothing is written in this tune yet: its bars come first.');
  if (cue.tempoBpm !== undefined && !isTempo(cue.tempoBpm)) {
    return no('badTempo', 'A tempo lies between 20 and 400.');
  }
  const road = cue.tempoBpm === undefined ? chart.road : { ...chart.road, tempoBpm: cue.tempoBpm };
  const semitones = chart.semitones ?? 0;
  const { id, title } = chart;
  return newTake(
    { id: newTakeId, chart: id, title, road, ...(semitones === 0 ? {} : { semitones }) },
    called,
  );
};

/**
 * A start after the end begins another take of the same chart, at the tempo and in the key that were asked for before
 * it began. The solo order is named again; ups and downs on the way were that take's.
 */
const startAgain = (take: Take, performance: Performance, called: Called, newTakeId: string): Conducted => {
  const { chart, title } = take;
  const { startBpm, startSemitones: semitones, manner } = performance.run.folded;
  const road = { ...roadAt(performance, called.calledAtMs), tempoBpm: startBpm };
  const players = manner.solo?.order;
  const order: Called[] = players
    ? [{ ...called, id: `${called.id}:order`, cue: { kind: 'soloOrder', players } }]
    : [];
  return newTake(
    { id: newTakeId, chart, title, road, ...(semitones === 0 ? {} : { semitones }) },
    called,
    order,
  );
};

const repeat = (take: Take | null, id: string): Conducted | null => {
  const before = take?.cues.find((called) => called.id === id);
  return before ? { ok: true, effect: { kind: 'repeat', called: before } } : null;
};

const NO_TUNE = no('noTune', 'No tune has been called yet.');

/**
 * What the relay does with a call: another take begins, the call is appended to the take that is on, or it is
 * refused with a reason. Pure: the relay writes down the effect.
 */
export const conduct = (
  state: ConductState,
  call: Call,
  atMs: number,
  context: ConductContext,
): Conducted => {
  const { take } = state;
  const { id, cue, by } = call;
  const again = repeat(take, id);
  if (again) return again;
  const called: Called = { id, cue, calledAtMs: stamp(take, atMs), ...(by === undefined ? {} : { by }) };
  if (cue.kind === 'callTune') return callTune(state, cue, called, context);
  if (!take) return NO_TUNE;
  const performance = state.performance ?? perform(take);
  const verdict = judge(performance, cue, called.calledAtMs);
  if (!verdict.ok) return verdict;
  if (cue.kind === 'start' && locate(performance, called.calledAtMs).state === 'ended') {
    return startAgain(take, performance, called, context.newTakeId);
  }
  return { ok: true, effect: { kind: 'append', called } };
};

/** What the relay does when somebody takes a cue back: `call.cue` is the id of that cue. */
export const conductTakeBack = (
  state: ConductState,
  call: { readonly id: string; readonly cue: string; readonly by?: string },
  atMs: number,
): Conducted => {
  const { take } = state;
  const { id, cue, by } = call;
  const again = repeat(take, id);
  if (again) return again;
  if (!take) return NO_TUNE;
  const calledAtMs = stamp(take, atMs);
  const verdict = judgeTakeBack(state.performance ?? perform(take), cue, calledAtMs);
  if (!verdict.ok) return verdict;
  const called: Called = {
    id,
    cue: { kind: 'takeBack', cue },
    calledAtMs,
    ...(by === undefined ? {} : { by }),
  };
  return { ok: true, effect: { kind: 'append', called } };
};
