import type { Course, Span } from './course.ts';
import { isRoundEnd } from './loop-round.ts';
import { barsOf, partingOf, type Spot } from './spot.ts';

/** What a bar line is the end of. */
export interface Line {
  readonly phrase: boolean;
  readonly pass: boolean;
  /** The last pass parts from the others here: pass counts land here too. */
  readonly parts: boolean;
  /** A round of a loop ends here. */
  readonly round: boolean;
  /** The pass has no bar after it, whether it counts as its end or not. */
  readonly last: boolean;
}

const NOWHERE: Line = { phrase: false, pass: false, parts: false, round: false, last: false };

/**
 * The line at the end of the span: read again after pass counts have landed where the passes part. While a loop goes
 * round, its end is the end of a phrase and never of a pass.
 */
export const lineOf = (course: Course): Line => {
  const span = course.span as Span;
  const spot = course.spot as Spot;
  if (span.kind === 'count') return { ...NOWHERE, phrase: spot.barIndex >= 0 };
  if (spot.barIndex < 0) return { ...NOWHERE, phrase: true };
  const next = spot.barIndex + 1;
  const last = next >= barsOf(spot).length;
  const { phraseEnd } = span.coming.bar;
  if (course.manner.loop) {
    const round = isRoundEnd(course);
    return { ...NOWHERE, phrase: round || phraseEnd, round, last };
  }
  const parts = spot.parted === '' && next === partingOf(spot.leg);
  return { phrase: last || phraseEnd, pass: last, parts, round: false, last };
};
