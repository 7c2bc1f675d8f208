import type { Course } from './course.ts';
import { placeOf, writePiece } from './enter-bar.ts';
import type { Moment } from './moment.ts';
import type { Spot } from './spot.ts';

/**
 * From `at` on the band is counted in for so many pulses; then the bar at the spot begins. `lands` are the ids of
 * cues that have landed and begin with that bar.
 */
export const beginCount = (
  course: Course,
  spot: Spot,
  at: Moment,
  { pulses, barPulses, lands = [] }: { pulses: number; barPulses: number; lands?: readonly string[] },
): void => {
  course.state = 'rolling';
  course.spot = spot;
  course.count = Math.max(course.count, at.count);
  course.span = {
    kind: 'count',
    zero: at.count,
    end: at.count + pulses,
    barPulses,
    place: placeOf(spot),
    nextBar: course.bars,
    countLines: course.countLines,
    lands,
  };
  writePiece(course, at.ms);
};
