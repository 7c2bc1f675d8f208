import { countByTaps } from '../count-by-taps.ts';
import { type Course, isHeld, type Pending } from '../course.ts';
import type { Cue } from '../cue.ts';
import { type CueRule, refusal } from '../cue-rule.ts';
import { writePiece } from '../enter-bar.ts';
import { followTap } from '../follow-tap.ts';
import type { Tapped } from '../tapped.ts';
import { EMPTY_ROAD } from './moves.ts';

type Tap = Extract<Cue, { kind: 'tap' }>;

/** A tap farther than this from the relay's time is not believed. */
const FARTHEST_TAP_MS = 1000;

const waitsForTap = ({ cue }: Pending): boolean => cue.kind === 'release' && cue.onTap === true;

/** The hold ends at the tap. Nobody could see that before it was heard: until then the band was held. */
const releaseByTap = (course: Course, tappedAtMs: number, atMs: number): void => {
  writePiece(course, atMs);
  course.pending = course.pending.map((pending) =>
    waitsForTap(pending) ? { ...pending, cue: { kind: 'release' }, fromMs: tappedAtMs } : pending,
  );
};

const act = (course: Course, cue: Tap, atMs: number): Pick<Tapped, 'did' | 'errorMs'> => {
  if (course.state === 'waiting') return { did: countByTaps(course, cue.tappedAtMs, atMs), errorMs: 0 };
  if (!isHeld(course)) return followTap(course, cue, atMs);
  releaseByTap(course, cue.tappedAtMs, atMs);
  return { did: 'released', errorMs: 0 };
};

/** "tap": steers place and tempo; while the tune waits, counts it in; while the band holds, releases it. */
export const tap: CueRule<Tap> = {
  family: 'feel',
  while: ['waiting', 'rolling'],
  boundary: () => 'atOnce',
  refuseAtCall: ({ tappedAtMs }, course, atMs) => {
    if (!(Math.abs(atMs - tappedAtMs) <= FARTHEST_TAP_MS)) {
      return refusal('tapTooFar', 'That tap came too late to be followed: tap on.');
    }
    if (course.road.legs.length === 0) return EMPTY_ROAD;
    return isHeld(course) && !course.pending.some(waitsForTap)
      ? refusal('held', 'The band holds: release it first.')
      : null;
  },
  atOnce: (course, cue, atMs, id) => {
    const { tappedAtMs } = cue;
    course.log.taps.push({ id, tappedAtMs, heardAtMs: atMs, ...act(course, cue, atMs) });
  },
  tell: () => ({ name: 'Tap', detail: '' }),
};
