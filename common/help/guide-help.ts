import { type GuideTone, guideTones } from '../theory/harmony/guide-tones.ts';
import type { Help } from './help.ts';
import type { PassChords } from './pass-chords.ts';

/** C4 to A5 as written: the middle of every wind's compass. Common practice, no source. */
const WRITTEN = { low: 60, high: 81 };

/** The two guide-tone lines, chord by chord. Where a chord follows the pass, its last notes lead there. */
export const guideHelp = ({ chords, after }: PassChords): Help[] => {
  const symbols = [...chords, ...(after ? [after] : [])].map(({ symbol }) => symbol);
  const { upper, lower } = guideTones(symbols, WRITTEN);
  return chords.map((_, index) => ({
    kind: 'guide',
    upper: upper[index] as GuideTone,
    lower: lower[index] as GuideTone,
  }));
};
