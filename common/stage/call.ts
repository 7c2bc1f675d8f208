import type { Road } from '../form/road.ts';
import { type CalledAt, type Course, copyCourse, type Landing, type Pending } from './course.ts';
import { type CueRule, refusal } from './cue-rule.ts';
import { ruleOf } from './cue-table.ts';
import { placeOf } from './enter-bar.ts';
import type { Refusal } from './refusal.ts';
import { goOnAs, ifHappened, ifNotStopped } from './retold.ts';
import { bpmAt, type Tempo } from './tempo.ts';
import { goesRound, nextEvent, step, walkTo, walkToCount } from './walk.ts';

/** What comes of a call: it makes no sense, or it lands (null: nobody can say when, an open leg stands before). */
export type Heard =
  | { readonly ok: false; readonly refused: Refusal }
  | { readonly ok: true; readonly landing: Landing | null };

/** News is on every stand within this time, however fast the tune. */
const SHORTEST_NOTICE_MS = 400;

const no = (why: string, words: string): Heard => ({ ok: false, refused: refusal(why, words) });

const refuseState = (rule: CueRule, course: Course): Refusal | null => {
  if (rule.while.includes(course.state)) return null;
  if (course.state === 'waiting') return refusal('waiting', 'The tune has not begun: count in first.');
  if (course.state === 'ended') return refusal('ended', 'The tune has ended.');
  return refusal('rolling', 'The tune is on: stop it first.');
};

/** The last leg of the road that was taken last, also where it has not landed yet: who calls something now goes by it. */
const lastLegOf = ({ pending, road }: Course): string | undefined => {
  const taken = pending.findLast(({ cue }) => cue.kind === 'adopt')?.cue as
    | { readonly road: Road }
    | undefined;
  return (taken?.road ?? road).legs.at(-1)?.id;
};

/** One pulse at the tempo then, but never less than 400 ms. */
const noticeMs = (course: Course, atMs: number): number =>
  Math.max(SHORTEST_NOTICE_MS, 60_000 / bpmAt(course.tempo as Tempo, atMs));

/** Walks until the cue has landed or was dropped; null where it would wait for ever. */
const walkToLanding = (course: Course, id: string): Landing | null => {
  let seen = 0;
  while (course.state === 'rolling' && !goesRound(course)) {
    step(course, nextEvent(course));
    const { landings } = course.log;
    for (; seen < landings.length; seen += 1) {
      const landing = landings[seen];
      if (landing?.id === id) return landing;
    }
  }
  return null;
};

const landNow = (course: Course, { id, cue, by, atMs }: CalledAt, rule: CueRule): Heard => {
  const bar = course.bars;
  rule.atOnce?.(course, cue, atMs, id);
  const place = course.spot
    ? placeOf(course.spot)
    : { leg: course.road.legs[0]?.id ?? '', pass: 1, barIndex: 0, pulse: 0 };
  const landing: Landing = {
    id,
    cue,
    ...(by === undefined ? {} : { by }),
    count: course.count,
    ms: atMs,
    place,
    bar,
    line: bar + course.countLines,
  };
  course.log.landings.push(landing);
  return { ok: true, landing };
};

/** What the course would be by now, for the cues that say that something went otherwise; null for the others. */
const otherwise = (course: Course, { cue, atMs }: CalledAt): Course | Refusal | null => {
  if (cue.kind === 'resume') return ifNotStopped(course, atMs);
  if (cue.kind !== 'itHappened') return null;
  const happened = ifHappened(course, cue.cue, atMs, callOn);
  return 'why' in happened ? happened : happened.course;
};

/**
 * Calls a cue. What lies before the call has happened; then the cue is weighed on a copy that goes by the
 * earlier cues alone, first where notice is over, then where it would land. A cue that makes no sense leaves
 * the course as it is.
 */
export const callOn = (course: Course, called: CalledAt): Heard => {
  const { id, cue, by, atMs } = called;
  walkTo(course, atMs);
  const rule = ruleOf(cue);
  if (!rule) return no('unknownCue', 'This cue is not known here.');
  const refused = refuseState(rule, course) ?? rule.refuseAtCall?.(cue, course, atMs);
  if (refused) return { ok: false, refused };
  const other = otherwise(course, called);
  if (other && 'why' in other) return { ok: false, refused: other };
  if (other) {
    goOnAs(course, other, atMs);
    return landNow(course, called, rule);
  }
  if (rule.boundary(cue) === 'atOnce' || course.state !== 'rolling') {
    course.heard = [...course.heard, called];
    return landNow(course, called, rule);
  }

  const ahead = copyCourse(course);
  const fromMs = atMs + noticeMs(course, atMs);
  const fromCount = walkToCount(ahead, fromMs);
  if (ahead.state !== 'rolling') return no('over', 'The tune ends before that.');
  if (rule.forThisLeg && ahead.spot?.leg.id !== course.spot?.leg.id) {
    return no('legChanges', `Too late: ${ahead.spot?.leg.name} comes first.`);
  }
  const late = rule.refuseAtNotice?.(cue, ahead);
  if (late) return { ok: false, refused: late };

  const leg = course.spot?.leg.id ?? '';
  const lastLeg = lastLegOf(course);
  const pending: Pending = { id, cue, ...(by === undefined ? {} : { by }), fromCount, leg, fromMs, lastLeg };
  ahead.pending = [...ahead.pending, pending];
  const landing = walkToLanding(ahead, id);
  if (landing?.refused) return { ok: false, refused: landing.refused };
  course.pending = [...course.pending, pending];
  course.heard = [...course.heard, called];
  return { ok: true, landing };
};
