import { barNumbers } from '../../common/form/bar-numbers.ts';
import type { Leg, Road } from '../../common/form/road.ts';

/** A spot of the road that a hand can reach with one touch. */
export interface Spot {
  readonly leg: string;
  /** −1 is the pick-up. */
  readonly barIndex: number;
  readonly pass?: number;
  /** "top", "A", "B". */
  readonly name: string;
}

/**
 * The top and the rehearsal letters of a leg, in order; a letter that comes again is numbered ("A 2").
 * @example letters(headOfAABA).map(({ name }) => name) // ['top', 'A', 'A 2', 'B', 'A 3']
 */
export const letters = (leg: Leg): readonly Spot[] => {
  const seen = new Map<string, number>();
  const spots: Spot[] = [{ leg: leg.id, barIndex: 0, name: 'top' }];
  leg.bars.forEach((bar, barIndex) => {
    const letter = bar.content.letter;
    if (letter === undefined || letter === '') return;
    const times = (seen.get(letter) ?? 0) + 1;
    seen.set(letter, times);
    spots.push({ leg: leg.id, barIndex, name: times === 1 ? letter : `${letter} ${times}` });
  });
  return spots;
};

/** The leg a place is in; the first one where it is nowhere yet. */
export const legNow = (road: Road, legId: string | null): Leg | undefined =>
  road.legs.find(({ id }) => id === legId) ?? road.legs[0];

/** The leg that follows, undefined after the last. */
export const legAfter = (road: Road, legId: string): Leg | undefined => {
  const at = road.legs.findIndex(({ id }) => id === legId);
  return at < 0 ? undefined : road.legs[at + 1];
};

/** A run of bars of a leg, both ends played. */
export interface Stretch {
  readonly leg: string;
  readonly from: number;
  readonly to: number;
}

/** The stretch from one rehearsal letter to the next that holds this bar; the whole leg where it has no letters. */
export const letterAround = (leg: Leg, barIndex: number): Stretch & { readonly name: string } => {
  const spots = letters(leg).slice(1);
  const here = spots.findLast((spot) => spot.barIndex <= barIndex);
  const next = spots.find((spot) => spot.barIndex > barIndex);
  const from = here?.barIndex ?? 0;
  const to = (next?.barIndex ?? leg.bars.length) - 1;
  return { leg: leg.id, from, to, name: here?.name ?? (next === undefined ? leg.name : 'the top') };
};

/** @example barsWords({ leg, from: 4, to: 7 }) // 'bars 5–8' */
export const barsWords = ({ from, to }: Stretch): string => barNumbers(from + 1, to + 1);
