import { courseAt, pieceAt } from './ahead.ts';
import { callOn } from './call.ts';
import type { Course, Landing } from './course.ts';
import type { Cue } from './cue.ts';
import { refusal } from './cue-rule.ts';
import { ruleOf } from './cue-table.ts';
import { farPlace } from './far-place.ts';
import { linesTo, type Now, nowOf } from './lines-to.ts';
import type { Performance } from './perform.ts';
import type { Place } from './place.ts';
import type { Refusal } from './refusal.ts';

/** Why a cue is not taken: `why` is stable, `words` is a sentence for the leader. */
export interface Refused extends Refusal {
  readonly ok: false;
}

export interface Accepted {
  readonly ok: true;
  /** Infinity where an open leg, a vamp or a hold stands before it, so that nobody can say when. */
  readonly landsMs: number;
  /** The first place after it; at the end of the take, the end of the last bar. */
  readonly landsAt: Place;
  /** Bar lines still to cross, the landing's included; Infinity with `landsMs`. */
  readonly barsToGo: number;
}

export const refused = ({ why, words }: Refusal): Refused => ({ ok: false, why, words });

const accepted = (course: Course, cue: Cue, landing: Landing | null, now: Now): Accepted => {
  if (landing) {
    const atOnce = ruleOf(landing.cue)?.boundary(landing.cue) === 'atOnce';
    const barsToGo = atOnce ? 0 : linesTo(now, landing);
    return { ok: true, landsMs: landing.ms, landsAt: landing.place, barsToGo };
  }
  const landsAt = farPlace(course, cue);
  return { ok: true, landsMs: Number.POSITIVE_INFINITY, landsAt, barsToGo: Number.POSITIVE_INFINITY };
};

/**
 * Weighs a cue that would be called at `atMs`: where it would land, or why it makes no sense. The relay and the
 * keys of the podium ask the same question.
 */
export const judge = (performance: Performance, cue: Cue, atMs: number): Accepted | Refused => {
  const { course, atMs: calledMs } = courseAt(performance, atMs);
  const now = nowOf(course.span, course.tempo, calledMs);
  const heard = callOn(course, { id: '', cue, atMs: calledMs });
  return heard.ok ? accepted(course, cue, heard.landing, now) : refused(heard.refused);
};

const hasLanded = (performance: Performance, id: string, atMs: number): boolean => {
  pieceAt(performance, atMs);
  return performance.run.log.landings.some(
    (landing) => landing.id === id && !landing.refused && landing.ms <= atMs,
  );
};

/** Weighs taking back the cue `id` at `atMs`: only before it has landed. */
export const judgeTakeBack = (
  performance: Performance,
  id: string,
  atMs: number,
): { readonly ok: true } | Refused => {
  const { course, atMs: backMs } = courseAt(performance, atMs);
  if (course.pending.some((pending) => pending.id === id)) return { ok: true };
  const { cues } = performance.take;
  const called = cues.some((c) => c.id === id && c.cue.kind !== 'takeBack');
  if (!called) return refused(refusal('unknownCue', 'Nobody has called that.'));
  return hasLanded(performance, id, backMs)
    ? refused(refusal('landed', 'It has happened already: call something else.'))
    : refused(refusal('void', 'It is off already.'));
};
