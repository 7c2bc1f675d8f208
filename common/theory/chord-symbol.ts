import { chordDegrees } from './chord-degrees.ts';
import { type Drawn, drawChord } from './draw-chord.ts';
import { NOTE_PATTERN } from './pitch.ts';
import { plainSigns } from './plain-signs.ts';
import { readChordParts } from './read-chord-parts.ts';

export interface ChordSymbol {
  /** The spelling of its writer, blanks around it trimmed. */
  readonly typed: string;
  /** In plain signs: `Bb`. */
  readonly root: string;
  /** The bass after the slash, in plain signs; absent where the root is the bass. */
  readonly bass?: string;
  /**
   * Degrees above the root in rising order, in the sense of MusicXML: `7` is the major seventh, `b7` the minor.
   * All that the symbol names: a player leaves some out (the eleventh of a thirteenth chord, say).
   */
  readonly degrees: readonly string[];
  /** How it is drawn after the root, in one way for all spellings. */
  readonly drawn: Drawn;
}

const SYMBOL = new RegExp(`^(${NOTE_PATTERN})(.*?)(?:/(${NOTE_PATTERN}))?$`);

/** Blanks belong to a symbol only inside its round brackets. */
const BLANK_OUTSIDE = / (?![^(]*\))/;

/** A tune has a few dozen symbols; the map is emptied when somebody has typed very many. */
const MOST_KEPT = 2000;
const kept = new Map<string, ChordSymbol | null>();

/**
 * The chord of a symbol in any of the trade's spellings, `null` for an unknown one. How each spelling is read,
 * and which are not, is written in `CONVENTIONS.md`. `N.C.` and a bass alone (`/G`) are no chords.
 *
 * @example readChordSymbol('B♭-7b5/E').degrees // ['1', 'b3', 'b5', 'b7'], root 'Bb', bass 'E'
 */
export function readChordSymbol(text: string): ChordSymbol | null {
  const known = kept.get(text);
  if (known !== undefined) return known;
  const symbol = read(text.trim());
  if (kept.size >= MOST_KEPT) kept.clear();
  kept.set(text, symbol);
  return symbol;
}

function read(typed: string): ChordSymbol | null {
  const plain = plainSigns(typed);
  const [, root, body, bass] = SYMBOL.exec(plain) ?? [];
  if (root === undefined || body === undefined || BLANK_OUTSIDE.test(plain)) return null;
  const parts = readChordParts(body);
  const degrees = parts === null ? null : chordDegrees(parts);
  if (degrees === null) return null;
  const symbol = { typed, root, degrees, drawn: drawChord(degrees) };
  return bass === undefined ? symbol : { ...symbol, bass };
}
