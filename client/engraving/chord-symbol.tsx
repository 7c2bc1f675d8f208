import { readChordSymbol } from '../../common/theory/chord-symbol.ts';
import type { NoteNames } from '../../common/theory/note-name.ts';
import { ChordPieces } from './chord-pieces.tsx';
import { type LaidChord, layChord } from './lay-chord.ts';
import { useNoteNames } from './note-names.ts';
import { spoken } from './spoken.ts';
import './chord-symbol.css';

/** Room above the baseline and below it, in hundredths of the font size: nothing is drawn beyond. */
const ABOVE = 80;
const BELOW = 14;

const laid = new Map<string, LaidChord>();

/** The set chord for a symbol as typed; kept, because a tune says the same few chords over and over. */
export const laidChord = (symbol: string, names: NoteNames = 'english'): LaidChord => {
  const name = `${names} ${symbol}`;
  const known = laid.get(name);
  if (known !== undefined) return known;
  const fresh = layChord(symbol, readChordSymbol(symbol), names);
  if (laid.size > 2000) laid.clear();
  laid.set(name, fresh);
  return fresh;
};

const SIGN_CHARACTERS: Readonly<Record<string, string>> = {
  flat: '♭',
  sharp: '♯',
  doubleFlat: '𝄫',
  doubleSharp: '𝄪',
  triangle: '△',
  circle: '°',
  slashedCircle: 'ø',
};

const drawnText = (chord: LaidChord): string =>
  chord.pieces.map((piece) => (piece.kind === 'text' ? piece.text : SIGN_CHARACTERS[piece.sign])).join('');

/**
 * One chord symbol: every chord in Tillcue is drawn here. It is one em high and as wide as `laidChord` says,
 * takes the colour and the font size of its surroundings, and never wraps.
 * @param symbol as typed: 'Ebm7b5/Bbb', 'N.C.'
 */
export const ChordSymbol = ({ symbol, className = '' }: { symbol: string; className?: string }) => {
  const chord = laidChord(symbol, useNoteNames());
  const text = drawnText(chord);
  return (
    <svg
      className={`chord${chord.unknown ? ' chord-unknown' : ''} ${className}`}
      role="img"
      aria-label={chord.unknown ? `${symbol}, not a chord that is known` : spoken(text)}
      data-symbol={symbol}
      data-drawn={text}
      viewBox={`0 ${-ABOVE} ${(chord.widthEm * 100).toFixed(1)} ${ABOVE + BELOW}`}
      style={{ width: `${chord.widthEm.toFixed(3)}em` }}
    >
      <ChordPieces pieces={chord.pieces} />
      {chord.unknown && <line className="chord-dots" x1="3" x2={chord.widthEm * 100 - 1} y1="10" y2="10" />}
    </svg>
  );
};
