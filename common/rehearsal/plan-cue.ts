import type { Cue } from '../stage/cue.ts';
import { tempoAt } from '../stage/in-force.ts';
import { type Accepted, judge } from '../stage/judge.ts';
import { type Performance, perform } from '../stage/perform.ts';
import type { ComingBar } from '../stage/place.ts';
import { upcoming } from '../stage/upcoming.ts';
import { CUE_KINDS, cuesOf, type Dice, type DrilledCue, thrown } from './drill-cues.ts';
import { atLevel } from './drill-progress.ts';

/** What will be called, and when; the last of its calls is the one that is asked for. */
export interface CuePlan {
  readonly kind: DrilledCue;
  readonly calls: readonly PlannedCall[];
}

export interface PlannedCall {
  readonly cue: Cue;
  readonly atMs: number;
  /** Where it lands if it is called in time; null where that is all the same. */
  readonly landsMs: number | null;
}

/** Bars from the call to the line, the one in which it is called included, by level. */
const NOTICE_BARS = [8, 8, 6, 4, 4, 3, 2, 1] as const;
/** Farther ahead than this nothing is planned. */
const HORIZON_BARS = 40;
/** Two times are the same line of the music when they differ by less, ms. */
const SAME_MS = 1;

export const noticeBars = (level: number): number => atLevel(NOTICE_BARS, level);

/** Whether a planned call, made now, is taken and still lands where it was meant to. */
export const isStillDue = (
  performance: Performance,
  { cue, landsMs }: PlannedCall,
  nowMs: number,
): boolean => {
  const verdict = judge(performance, cue, nowMs);
  return verdict.ok && (landsMs === null || Math.abs(verdict.landsMs - landsMs) < SAME_MS);
};

/** The performance as it would be with another cue. */
export const withCue = (performance: Performance, cue: Cue, atMs: number): Performance => {
  const { take } = performance;
  const called = { id: `drill ${take.cues.length}`, cue, calledAtMs: atMs };
  return perform({ ...take, cues: [...take.cues, called] }, performance);
};

/** The next cue by the dice, with the notice of that level; null where nothing can be called. */
export const planCue = (
  performance: Performance,
  nowMs: number,
  level: number,
  before: DrilledCue | null,
  dice: Dice,
): CuePlan | null => {
  const coming = upcoming(performance, nowMs, HORIZON_BARS).filter(({ startMs }) => Number.isFinite(startMs));
  const left: DrilledCue[] = CUE_KINDS.filter((kind) => kind !== before);
  while (left.length > 0) {
    const kind = thrown(left, dice) as DrilledCue;
    left.splice(left.indexOf(kind), 1);
    const plan = planOf(kind, performance, coming, noticeBars(level), dice);
    if (plan) return plan;
  }
  return before ? planOf(before, performance, coming, noticeBars(level), dice) : null;
};

interface Found {
  readonly cue: Cue;
  readonly atMs: number;
  /** Index in `coming` of the bar in which it is called. */
  readonly at: number;
  readonly verdict: Accepted;
}

const planOf = (
  kind: DrilledCue,
  performance: Performance,
  coming: readonly ComingBar[],
  notice: number,
  dice: Dice,
): CuePlan | null => {
  let best: Found | null = null;
  for (let at = 0; at < coming.length; at += 1) {
    if (best && best.verdict.barsToGo >= notice) break;
    const atMs = instantIn(performance, coming[at] as ComingBar, dice());
    const found = cuesOf(kind, performance, coming, at, notice, dice).flatMap((cue): Found[] => {
      const verdict = judge(performance, cue, atMs);
      const fits = verdict.ok && isInTime(verdict, notice) && isNews(cue, verdict, coming);
      return fits ? [{ cue, atMs, at, verdict }] : [];
    });
    const one = thrown(found, dice);
    if (one && one.verdict.barsToGo > (best?.verdict.barsToGo ?? 0)) best = one;
  }
  if (!best) return null;
  const { cue, atMs, verdict } = best;
  const first = { cue, atMs, landsMs: verdict.landsMs };
  if (kind !== 'lastThenMore') return { kind, calls: [first] };
  const then = oneMoreAfter(performance, coming, best, dice);
  return then && { kind, calls: [first, then] };
};

const isInTime = ({ landsMs, barsToGo }: Accepted, notice: number): boolean =>
  Number.isFinite(landsMs) && barsToGo >= notice / 2 && barsToGo <= notice;

/** A go to must lead to another bar of this leg than the one that comes anyway. */
const isNews = (cue: Cue, { landsMs }: Accepted, coming: readonly ComingBar[]): boolean => {
  if (cue.kind !== 'goTo') return true;
  const anyway = coming.find(({ startMs }) => Math.abs(startMs - landsMs) < SAME_MS);
  return anyway !== undefined && anyway.place.leg === cue.leg && anyway.place.barIndex !== cue.barIndex;
};

/** A leader calls in the middle of a bar: between its first quarter and its half, ms. */
const instantIn = (performance: Performance, { startMs, bar }: ComingBar, dice: number): number =>
  startMs + ((bar.pulses * 60_000) / tempoAt(performance, startMs)) * (0.25 + dice * 0.25);

/** "One more", halfway between the last chorus that was called and its line; null where that is too short. */
const oneMoreAfter = (
  performance: Performance,
  coming: readonly ComingBar[],
  { cue, atMs, at, verdict }: Found,
  dice: Dice,
): PlannedCall | null => {
  const later = coming[at + Math.ceil(verdict.barsToGo / 2)];
  if (!later) return null;
  const moreMs = instantIn(performance, later, dice());
  const more: Cue = { kind: 'oneMore' };
  const judged = judge(withCue(performance, cue, atMs), more, moreMs);
  const isOneLine = judged.ok && Math.abs(judged.landsMs - verdict.landsMs) < SAME_MS;
  return isOneLine ? { cue: more, atMs: moreMs, landsMs: judged.landsMs } : null;
};
