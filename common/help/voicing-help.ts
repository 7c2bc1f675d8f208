import { keyboardPath } from '../shapes/keyboard/keyboard-path.ts';
import type { KeysStyle } from '../shapes/keyboard/keyboard-voicing.ts';
import { scaleColours } from '../shapes/keyboard/scale-colours.ts';
import type { ChordSymbol } from '../theory/chord-symbol.ts';
import type { ChordAnalysis } from '../theory/harmony/analyse.ts';
import { scaleChoices } from '../theory/harmony/scale-choice.ts';
import type { Help } from './help.ts';
import type { PassChords } from './road-help.ts';

export interface VoicingWishes {
  readonly style: KeysStyle;
}

/** A voicing for each chord, led from one to the next with the least movement; closed where the pass goes round. */
export const voicingHelp = ({ chords, goesRound }: PassChords, { style }: VoicingWishes): (Help | null)[] =>
  keyboardPath(
    chords.map(({ symbol, analysis }) => ({ symbol, colours: coloursOf(symbol, analysis) })),
    style,
    { closed: goesRound },
  ).map((voicing) => voicing && { kind: 'voicing', voicing });

/** What the likeliest scale for its function adds to a chord; nothing where it is another tonic's, as over a blues. */
const coloursOf = (symbol: ChordSymbol, analysis: ChordAnalysis): readonly string[] => {
  const [scale] = scaleChoices(symbol, analysis);
  return scale === undefined || scale.tonic !== symbol.root ? [] : scaleColours(scale);
};
