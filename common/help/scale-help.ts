import { scaleChoices } from '../theory/harmony/scale-choice.ts';
import type { Help } from './help.ts';
import type { PassChords } from './pass-chords.ts';

/** The likeliest scale over each chord; none where no scale fits and the chord's own notes remain. */
export const scaleHelp = ({ chords }: PassChords): (Help | null)[] =>
  chords.map(({ symbol, analysis }) => {
    const [first] = scaleChoices(symbol, analysis);
    if (first === undefined) return null;
    const { tonic, scale, avoid } = first;
    return { kind: 'scale', tonic, scale, avoid };
  });
