import { numberedChord } from '../theory/harmony/number-view.ts';
import type { Help } from './help.ts';
import type { PassChords } from './pass-chords.ts';

/** What each chord does, as a Roman numeral with its reason. */
export const numeralHelp = ({ chords }: PassChords): Help[] =>
  chords.map(({ analysis: { numeral, reason } }) => ({ kind: 'numeral', numeral, reason }));

/** Each chord in the number system, counted from the key in which it is heard. */
export const numberHelp = ({ chords }: PassChords): Help[] =>
  chords.map(({ symbol, analysis: { key } }) => ({ kind: 'number', number: numberedChord(symbol, key) }));
