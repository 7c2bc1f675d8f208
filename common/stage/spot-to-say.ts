import type { LostKind } from '../form/lost-spots/lost-spot.ts';
import type { RankedSpot } from '../form/lost-spots/lost-spots.ts';
import type { ComingBar } from './place.ts';

/** The chart announces these itself, with a countdown. */
const ANNOUNCED_AS_WRITTEN: readonly LostKind[] = ['break', 'metre', 'key'];

/**
 * The lost spot to say in few words in the bar that is being played; null where there is none. From the bar in which it
 * is to be announced until the one in which it throws people is over; of several the likeliest. It is said only where
 * its bars are what comes: not before a jump out of them, nor in a last pass that goes on elsewhere.
 * @param spots of the leg that is played, the likeliest first
 * @param coming the bar being played and those after it: two passes of the leg
 */
export const spotToSay = (spots: readonly RankedSpot[], coming: readonly ComingBar[]): RankedSpot | null => {
  const here = coming[0];
  if (!here) return null;
  const { barIndex } = here.place;
  const { length } = here.leg.bars;
  const said = spots.find((spot) => {
    if (ANNOUNCED_AS_WRITTEN.includes(spot.kind)) return false;
    const { fromBar, atBar, announceFromBar } = spot;
    const isInThisPass = barIndex >= announceFromBar && barIndex <= Math.min(atBar, length - 1);
    if (isInThisPass) return isWhatComes(spot, coming, fromBar - barIndex);
    const isInNextPass = barIndex - here.passBars >= announceFromBar;
    return isInNextPass && isWhatComes(spot, coming, here.passBars - barIndex + fromBar);
  });
  return said ?? null;
};

/** @param from index of its first bar in `coming`; below 0 where it has begun */
const isWhatComes = ({ bars, fromBar }: RankedSpot, coming: readonly ComingBar[], from: number): boolean =>
  bars.every((id, i) => {
    const at = from + i;
    return at < 0 || coming[at]?.bar.id === id;
  }) &&
  (from < 0 || coming[from]?.place.barIndex === fromBar);
