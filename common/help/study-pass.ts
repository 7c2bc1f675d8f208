import type { Leg, Road, RoadBar } from '../form/road.ts';

/** A pass to study: legs that play the same bars are studied once. */
export interface StudyPass {
  /** `Head, Solos, Head out`. */
  readonly legs: readonly Leg[];
  readonly bars: readonly RoadBar[];
  /** Index in the road of the leg that is shown. */
  readonly leg: number;
  /** It is the last pass of its leg, with bars of its own. */
  readonly isLast: boolean;
}

/** The different passes of a road, in the order in which they are first played. */
export const studyPasses = ({ legs }: Road): StudyPass[] => {
  const passes = new Map<string, StudyPass>();
  const add = (leg: Leg, index: number, bars: readonly RoadBar[], isLast: boolean) => {
    const name = JSON.stringify(bars.map(({ id }) => id));
    const known = passes.get(name);
    if (known?.legs.includes(leg)) return;
    passes.set(
      name,
      known ? { ...known, legs: [...known.legs, leg] } : { legs: [leg], bars, leg: index, isLast },
    );
  };
  legs.forEach((leg, index) => {
    add(leg, index, leg.bars, false);
    if (leg.lastBars) add(leg, index, leg.lastBars, true);
  });
  return [...passes.values()];
};
