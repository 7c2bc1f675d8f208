import { countPulses } from '../chart/read-counts.ts';
import type { RoadMark } from '../form/road.ts';
import type { ComingBar } from '../stage/place.ts';

/** A mark of the bar is meant for the pass in which it is played. */
const isMeant = ({ pass }: RoadMark, { place, passes }: ComingBar): boolean =>
  pass === undefined || pass === place.pass || (pass === 'last' && passes === place.pass);

/** The marks of a bar that are meant for this pass. */
export const marksOf = (coming: ComingBar): readonly RoadMark[] =>
  coming.bar.marks.filter((mark) => isMeant(mark, coming));

/** The bar lies in a tacet: on the road the bars of one follow each other with the id of the first. */
const isTacet = ({ bar, leg, place }: ComingBar): boolean => {
  const bars = leg.lastBars?.[place.barIndex] === bar ? leg.lastBars : leg.bars;
  for (let i = place.barIndex; i >= 0 && bars[i]?.id === bar.id; i -= 1) {
    const tacet = bars[i]?.marks.find(({ mark }) => mark.kind === 'tacet')?.mark;
    if (tacet?.kind === 'tacet') return place.barIndex - i < tacet.bars;
  }
  return false;
};

const placesOf = (coming: ComingBar, kind: 'hits' | 'kicks'): number[] | null => {
  const { metre } = coming.bar.content.music;
  const places = marksOf(coming).flatMap(({ mark }) =>
    mark.kind === kind ? (countPulses(mark.counts, metre) ?? []) : [],
  );
  const inBar = [...new Set(places)].filter((place) => place < coming.bar.pulses).sort((a, b) => a - b);
  return inBar.length > 0 ? inBar : null;
};

/**
 * The pulses at which alone the band plays in a bar, all together; none where it is out; null where it plays time.
 * A pick-up is the soloist's.
 */
export const playedHits = (coming: ComingBar): readonly number[] | null => {
  if (coming.out === 'out' || coming.place.barIndex < 0 || isTacet(coming)) return [];
  if (coming.out === 'hit' || coming.stopTime) return [0];
  return placesOf(coming, 'hits');
};

/** Pulses that the band catches while time goes on. */
export const caughtKicks = (coming: ComingBar): readonly number[] => placesOf(coming, 'kicks') ?? [];
