import type { RoadBar } from '../form/road.ts';
import type { Cue } from './cue.ts';
import { barOf, barsOf, type Spot } from './spot.ts';
import { isForPass } from './written-marks.ts';

type Hold = Extract<Cue, { kind: 'hold' }>;

/**
 * The pulse at which a bar's last chord begins; a chord that goes on from the bar before begins with the bar.
 * Infinity where no chord sounds (rests, N.C.), so that there is nothing to hold.
 */
export const lastChordPulse = ({ content, pulses }: RoadBar): number => {
  let last = Number.POSITIVE_INFINITY;
  for (const { kind, atPulse } of content.music.cells) {
    if ((kind === 'chord' || kind === 'unknown') && atPulse < pulses) last = atPulse;
  }
  return last;
};

/** The bar is the one that a hold names, or it names none. */
const isNamed = ({ leg, barIndex }: Hold, legId: string, index: number): boolean =>
  (leg === undefined || leg === legId) && (barIndex === undefined || barIndex === index);

/** The pulse of the bar at the spot at which a called hold would land; Infinity where it is not for this bar. */
export const calledHoldPulse = (hold: Hold, spot: Spot): number => {
  const bar = isNamed(hold, spot.leg.id, spot.barIndex) ? barOf(spot) : undefined;
  return bar ? lastChordPulse(bar) : Number.POSITIVE_INFINITY;
};

/** The bars from the spot on in a leg of which no end is known, each with its index; a pick-up comes once. */
const barsAhead = ({ leg, barIndex }: Spot): (readonly [number, RoadBar])[] => [
  ...(barIndex < 0 && leg.pickUp ? [[-1, leg.pickUp] as const] : []),
  ...leg.bars.map((bar, index) => [index, bar] as const),
];

/** A called hold can land before a leg of which no end is known is left. */
export const isHeldInLeg = (hold: Hold, spot: Spot): boolean =>
  barsAhead(spot).some(
    ([index, bar]) => isNamed(hold, spot.leg.id, index) && Number.isFinite(lastChordPulse(bar)),
  );

/** A called hold can land in the bars from `from` to `to` of the pass. */
export const isHeldWithin = (hold: Hold, spot: Spot, from: number, to: number): boolean =>
  barsOf(spot)
    .slice(from, to + 1)
    .some((bar, i) => isNamed(hold, spot.leg.id, from + i) && Number.isFinite(lastChordPulse(bar)));

/** The first pulse from `from` on at which `hold` or `on cue` is written for this pass; Infinity where none is. */
export const writtenHoldPulse = (spot: Spot, bar: RoadBar, from: number): number => {
  let first = Number.POSITIVE_INFINITY;
  for (const written of bar.marks) {
    const { mark, atPulse } = written;
    if (mark.kind !== 'hold' && mark.kind !== 'onCue') continue;
    if (atPulse >= from && atPulse < bar.pulses && isForPass(written, spot)) first = Math.min(first, atPulse);
  }
  return first;
};
