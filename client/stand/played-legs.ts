import type { ComingBar } from '../../common/stage/place.ts';

export interface PlayedLeg {
  readonly name: string;
  readonly passes: number;
}

/** What was played, leg by leg, from the bars that were played. A leg played again later is named again. */
export const playedLegs = (bars: readonly ComingBar[]): PlayedLeg[] => {
  const legs: { id: string; name: string; tag: boolean; passes: Set<number> }[] = [];
  for (const bar of bars) {
    const last = legs.at(-1);
    if (last?.id === bar.place.leg) last.passes.add(bar.place.pass);
    else
      legs.push({
        id: bar.place.leg,
        name: bar.leg.name,
        tag: bar.leg.tag !== undefined,
        passes: new Set([bar.place.pass]),
      });
  }
  // A tag's first time is the end of the leg before it.
  return legs.map(({ name, passes, tag }) => ({ name, passes: passes.size + (tag ? 1 : 0) }));
};
