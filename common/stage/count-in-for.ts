import type { CountLength } from './count-pattern.ts';
import { barOf, type Spot } from './spot.ts';

/**
 * The count-in before a take that starts at the spot, and the spot of the first bar played: a pick-up comes before
 * the top of its leg, and count-in and pick-up together fill whole bars.
 */
export const countInFor = (top: Spot, countBars: number): CountLength & { readonly spot: Spot } => {
  const { pickUp } = top.leg;
  if (!pickUp || top.barIndex !== 0) {
    const barPulses = barOf(top)?.pulses ?? 4;
    return { spot: top, barPulses, pulses: countBars * barPulses };
  }
  const barPulses = pickUp.content.music.metre.pulses;
  const bars = Math.max(countBars, Math.ceil(pickUp.pulses / barPulses));
  return { spot: { ...top, barIndex: -1 }, barPulses, pulses: bars * barPulses - pickUp.pulses };
};
