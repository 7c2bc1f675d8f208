import type { Metre } from '../chart/bar-music.ts';
import { type Beat, pulseAtBeat } from './beats.ts';
import { placeOfCount, type Rhythm } from './rhythm.ts';

const PART = { '': 0, e: 0.25, '&': 0.5, a: 0.75 } as const;

/**
 * Where a rhythm's strokes fall in a bar, in pulses, straight and rising. A rhythm that was written for bars of this
 * metre is taken as it is; any other counts beats, and begins again with each group of beats and where a group is
 * longer than the rhythm.
 * Example: `1 2&` in 5/4 as 3 + 2: 1 2& 4 5&.
 * @param turn how many bars have gone by, for a rhythm of two bars
 */
export const fitRhythm = (
  rhythm: Rhythm,
  metre: Metre,
  beats: readonly Beat[],
  { turn, plain }: { readonly turn: number; readonly plain: boolean },
): number[] => {
  const bar = rhythm.bars[turn % Math.max(1, rhythm.bars.length)] ?? [];
  const last = beats.at(-1);
  const end = last ? last.atPulse + last.lengthPulses : 0;
  if (plain && rhythm.pulses === metre.pulses) {
    return bar.map((count) => placeOfCount(count, metre)).filter((place) => place < end);
  }
  const places: number[] = [];
  let from = 0;
  while (from < beats.length) {
    let to = from + 1;
    while (to < beats.length && to - from < rhythm.pulses && !beats[to]?.opensGroup) to += 1;
    for (const { pulse, part } of bar) {
      const place = pulse < to - from ? pulseAtBeat(beats, from + pulse + PART[part]) : Number.NaN;
      if (place < end && place > (places.at(-1) ?? -1)) places.push(place);
    }
    from = to;
  }
  return places;
};
