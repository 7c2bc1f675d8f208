import type { ChordSymbol } from '../chord-symbol.ts';
import { type NoteNames, noteName } from '../note-name.ts';

/** A chord as it is drawn, in one line of text: `F7/C`, `E♭△7`. */
export const chordName = ({ root, bass, drawn }: ChordSymbol, names: NoteNames = 'english'): string =>
  noteName(root, names) + drawn.base + drawn.raised + (bass === undefined ? '' : `/${noteName(bass, names)}`);
