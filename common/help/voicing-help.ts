import { type KeyboardStep, keyboardPath } from '../shapes/keyboard/keyboard-path.ts';
import type { KeysStyle } from '../shapes/keyboard/keyboard-voicing.ts';
import { scaleColours } from '../shapes/keyboard/scale-colours.ts';
import type { ChordSymbol } from '../theory/chord-symbol.ts';
import type { ChordAnalysis } from '../theory/harmony/analyse.ts';
import { scaleChoices } from '../theory/harmony/scale-choice.ts';
import type { Help } from './help.ts';
import type { PassChords } from './pass-chords.ts';

export interface VoicingWishes {
  readonly style: KeysStyle;
}

/** A voicing for each chord, led from one to the next with the least movement; closed where the pass goes round. */
export const voicingHelp = ({ chords, goesRound }: PassChords, { style }: VoicingWishes): (Help | null)[] =>
  keyboardPath(
    chords.map(({ symbol, analysis }) => ({ symbol, ...coloursOf(symbol, analysis) })),
    style,
    { closed: goesRound },
  ).map((voicing) => voicing && { kind: 'voicing', voicing });

/** What the likeliest scale for its function adds to a chord; the usual colours where it is another tonic's, as over a blues. */
const coloursOf = (symbol: ChordSymbol, analysis: ChordAnalysis): Pick<KeyboardStep, 'colours'> => {
  const [scale] = scaleChoices(symbol, analysis);
  return scale === undefined || scale.tonic !== symbol.root ? {} : { colours: scaleColours(scale) };
};
