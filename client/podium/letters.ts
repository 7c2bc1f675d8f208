import type { Leg, Road } from '../../common/form/road.ts';

/** A spot of the road that a hand can reach with one touch. */
export interface Spot {
  readonly leg: string;
  readonly barIndex: number;
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
