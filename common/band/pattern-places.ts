import { COMMON_TIME } from '../chart/read-metre.ts';
import { type Beat, pulseAtBeat } from './beats.ts';
import { type Count, readRhythm } from './rhythm.ts';

const PART = { '': 0, e: 0.25, '&': 0.5, a: 0.75 } as const;
const read = new Map<string, readonly Count[]>();

const countsOf = (text: string): readonly Count[] => {
  let counts = read.get(text);
  if (!counts) {
    const { rhythm, problems } = readRhythm(text, COMMON_TIME);
    if (problems.length > 0) throw new Error(`a pattern: "${text}": ${problems[0]?.words}`);
    counts = rhythm.bars[0] ?? [];
    read.set(text, counts);
  }
  return counts;
};

/**
 * Where the counts of a pattern fall in these beats, in pulses, straight and rising. They count beats; those beyond
 * the last one are left out, and two that fall together are one.
 * @param withSixteenths parts finer than the half of a beat are played
 */
export const patternPlaces = (counts: string, beats: readonly Beat[], withSixteenths = true): number[] => {
  const places: number[] = [];
  for (const { pulse, part } of countsOf(counts)) {
    if (!withSixteenths && (part === 'e' || part === 'a')) continue;
    const place = pulseAtBeat(beats, pulse + PART[part]);
    const last = beats.at(-1);
    const end = last ? last.atPulse + last.lengthPulses : 0;
    if (place < end - 1e-9 && place > (places.at(-1) ?? -1) + 1e-9) places.push(place);
  }
  return places;
};
