import { type GuideTone, guideTones } from '../theory/harmony/guide-tones.ts';
import type { GuideHelp, Help } from './help.ts';
import type { PassChords } from './road-help.ts';

/** C4 to A5 as written: the middle of every wind's compass. Common practice, no source. */
const WRITTEN = { low: 60, high: 81 };

/** The two guide-tone lines, chord by chord. Where the pass goes round, its last notes lead to its first chord. */
export const guideHelp = ({ chords, after }: PassChords): Help[] => {
  const symbols = [...chords, ...(after ? [after] : [])].map(({ symbol }) => symbol);
  const { upper, lower } = guideTones(symbols, WRITTEN);
  return chords.map((_, index) => ({
    kind: 'guide',
    upper: helpOf(upper[index] as GuideTone),
    lower: helpOf(lower[index] as GuideTone),
  }));
};

const helpOf = ({ note, degree, resolves }: GuideTone): GuideHelp => ({ note, degree, resolves });
