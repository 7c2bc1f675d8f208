import type { CountLength } from './count-pattern.ts';
import type { Course } from './course.ts';
import { type Moment, placeOf, writePiece } from './enter-bar.ts';
import type { Spot } from './spot.ts';

/** From `at` on the band is counted in; then the bar at the spot begins. */
export const beginCount = (
  course: Course,
  spot: Spot,
  at: Moment,
  { pulses, barPulses }: CountLength,
): void => {
  course.state = 'rolling';
  course.spot = spot;
  course.span = {
    kind: 'count',
    zero: at.count,
    end: at.count + pulses,
    barPulses,
    place: placeOf(spot),
    nextBar: course.bars,
  };
  writePiece(course, at.ms);
};
