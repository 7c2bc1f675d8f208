import type { ChordSymbol } from '../chord-symbol.ts';
import { printNote } from '../plain-signs.ts';

/** A chord as it is drawn, in one line of text: `F7/C`, `E♭△7`. */
export const chordName = ({ root, bass, drawn }: ChordSymbol): string =>
  printNote(root) + drawn.base + drawn.raised + (bass === undefined ? '' : `/${printNote(bass)}`);
