import type { RoadBar } from '../../form/road.ts';
import { type Course, isHeld } from '../course.ts';
import type { Cue } from '../cue.ts';
import { type CueRule, refusal } from '../cue-rule.ts';
import { lastChordPulse } from '../hold-onset.ts';
import type { Moment } from '../moment.ts';
import { placeWords } from '../place-words.ts';
import type { Refusal } from '../refusal.ts';
import { isLastPass, type Spot } from '../spot.ts';
import { bpmAt, type Tempo } from '../tempo.ts';
import { NO_PLACE } from './find-spot.ts';

type Hold = Extract<Cue, { kind: 'hold' }>;
type Release = Extract<Cue, { kind: 'release' }>;

const HELD_ALREADY = refusal('heldAlready', 'The band holds already: release it first.');
const NO_CHORD = refusal('noChord', 'There is no chord to hold there.');
const GONE_BY = refusal('goneBy', 'That bar has gone by.');

/** The band holds from here on: the count stands still, and a ramp is over. */
export const holdAt = (course: Course, { count, ms }: Moment): void => {
  course.tempo = { fromCount: count, fromMs: ms, bpm: bpmAt(course.tempo as Tempo, ms), still: true };
};

/** Bars that a hold may mean, in the leg being played and those that follow. */
const barsMeant = ({ leg: legId, barIndex }: Hold, course: Course): RoadBar[] => {
  const spot = course.spot as Spot;
  const legs = [spot.leg, ...course.road.legs.slice(spot.next)];
  return legs
    .filter(({ id }) => legId === undefined || legId === id)
    .flatMap((leg) => {
      const { bars, lastBars = [] } = leg;
      if (barIndex === undefined) return [...bars, ...lastBars];
      if (barIndex >= 0) return [bars[barIndex], lastBars[barIndex]];
      return leg === spot.leg && spot.barIndex < 0 ? [leg.pickUp] : [];
    })
    .filter((bar) => bar !== undefined);
};

const refuse = (cue: Hold, course: Course): Refusal | null => {
  const { leg, barIndex } = cue;
  const spot = course.spot as Spot;
  if (isHeld(course) && leg === undefined && barIndex === undefined) return HELD_ALREADY;
  const bars = barsMeant(cue, course);
  if (bars.length === 0) return NO_PLACE;
  if (!bars.some((bar) => Number.isFinite(lastChordPulse(bar)))) return NO_CHORD;
  const isBehind = leg === spot.leg.id && isLastPass(spot) && (barIndex ?? spot.barIndex) < spot.barIndex;
  return isBehind ? GONE_BY : null;
};

/** "hold": the place stays at the onset of a bar's last chord, and the rest of the bar is gone with it. */
export const hold: CueRule<Hold> = {
  family: 'out',
  while: ['rolling'],
  boundary: () => 'chord',
  turn: 'hold',
  refuseAtNotice: refuse,
  land: (course, _, at) => {
    if (isHeld(course)) return HELD_ALREADY;
    holdAt(course, at);
    return null;
  },
  tell: ({ leg: legId, barIndex }, { next, course }) => {
    if (next) {
      const { leg, place, passBars } = next;
      const isLast = place.barIndex === passBars - 1;
      return { name: 'Hold', detail: isLast ? 'the last chord' : placeWords(leg, place.barIndex, leg.id) };
    }
    const leg = course.road.legs.find(({ id }) => id === legId);
    return { name: 'Hold', detail: leg ? placeWords(leg, barIndex ?? 0, undefined) : '' };
  },
};

/** "release": the next bar begins; at the road's end the take ends. */
export const release: CueRule<Release> = {
  family: 'move',
  while: ['rolling'],
  boundary: () => 'release',
  turn: 'release',
  refuseAtNotice: (_, course) => (isHeld(course) ? null : refusal('notHeld', 'Nothing is being held.')),
  tell: ({ onTap }, { last, next }) => {
    if (onTap) return { name: 'Release', detail: 'on the tap' };
    return {
      name: 'Release',
      detail: next ? placeWords(next.leg, next.place.barIndex, last?.leg.id) : 'the end',
    };
  },
};
