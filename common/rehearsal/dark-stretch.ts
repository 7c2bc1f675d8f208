import type { RankedSpot } from '../form/lost-spots/lost-spots.ts';
import type { ComingBar } from '../stage/place.ts';
import type { Dice } from './drill-cues.ts';
import { atLevel } from './drill-progress.ts';

/** Bars that are played in the dark, and the bar in which the player taps. */
export interface DarkStretch {
  /** The lost spot; null where it is only the way to the top. */
  readonly spot: RankedSpot | null;
  /** The first bar in the dark. */
  readonly from: ComingBar;
  /** The tap is due on its beat one. */
  readonly due: ComingBar;
  readonly bars: number;
}

/** Bars in the dark, by level. */
const DARK_BARS = [2, 3, 4, 6, 8, 12, 16, 24] as const;
interface Candidate extends DarkStretch {
  readonly weight: number;
}

/**
 * The next stretch to play in the dark; null where none comes.
 * @param coming the bars after the one being played
 * @param spotsOf the lost spots of a leg
 */
export const nextDark = (
  coming: readonly ComingBar[],
  spotsOf: (leg: string) => readonly RankedSpot[],
  level: number,
  dice: Dice,
): DarkStretch | null => {
  // Far enough for every spot of a leg to come once.
  const near = coming.slice(0, (coming[0]?.passBars ?? 0) + 1);
  const spots = near.flatMap((_, at) => spotsAt(coming, at, spotsOf, level));
  const found = spots.length > 0 ? spots : tops(coming, level);
  return weighed(found, dice);
};

const spotsAt = (
  coming: readonly ComingBar[],
  at: number,
  spotsOf: (leg: string) => readonly RankedSpot[],
  level: number,
): Candidate[] => {
  const here = coming[at] as ComingBar;
  return spotsOf(here.place.leg).flatMap((spot) => {
    const thrown = Math.min(spot.atBar, here.passBars - 1);
    if (thrown !== here.place.barIndex || !isThisPass(spot, here)) return [];
    const due = afterPhrase(coming, at);
    if (due === null) return [];
    // From the bar before the one that throws people.
    return stretch(coming, spot, { level, leastBars: due - at + 1, dueAt: due, weight: spot.weight });
  });
};

const isThisPass = ({ pass }: RankedSpot, { place, passes }: ComingBar): boolean =>
  pass === undefined || pass === place.pass || (pass === 'last' && place.pass === passes);

const isTop = (coming: readonly ComingBar[], at: number): boolean => {
  const here = coming[at]?.place;
  const before = coming[at - 1]?.place;
  return here !== undefined && before !== undefined && (here.leg !== before.leg || here.pass !== before.pass);
};

/** Index of the first bar of a phrase, or top, after `at`; null where the take ends. */
const afterPhrase = (coming: readonly ComingBar[], at: number): number | null => {
  for (let next = at + 1; next < coming.length; next += 1) {
    if (coming[next - 1]?.bar.phraseEnd || isTop(coming, next)) return next;
  }
  return null;
};

const LEAST_TO_TOP = 2;

const stretch = (
  coming: readonly ComingBar[],
  spot: RankedSpot | null,
  {
    level,
    leastBars,
    dueAt,
    weight,
  }: {
    readonly level: number;
    readonly leastBars: number;
    readonly dueAt: number;
    readonly weight: number;
  },
): Candidate[] => {
  const fromAt = Math.max(0, dueAt - Math.max(leastBars, atLevel(DARK_BARS, level)));
  const from = coming[fromAt];
  const due = coming[dueAt];
  if (!from || !due || !Number.isFinite(due.startMs) || dueAt - fromAt < leastBars) return [];
  return [{ spot, from, due, bars: dueAt - fromAt, weight }];
};

const tops = (coming: readonly ComingBar[], level: number): Candidate[] => {
  const dueAt = coming.findIndex((_, at) => at >= LEAST_TO_TOP && isTop(coming, at));
  return dueAt < 0 ? [] : stretch(coming, null, { level, leastBars: LEAST_TO_TOP, dueAt, weight: 1 });
};

/** One by the dice, each as often as it weighs. */
const weighed = (found: readonly Candidate[], dice: Dice): DarkStretch | null => {
  const all = found.reduce((sum, { weight }) => sum + weight, 0);
  let left = dice() * all;
  for (const candidate of found) {
    left -= candidate.weight;
    if (left < 0) return candidate;
  }
  return found.at(-1) ?? null;
};
