import { readChordSymbol } from '../../common/theory/chord-symbol.ts';
import type { NoteNames } from '../../common/theory/note-name.ts';
import { type LaidChord, layChord } from './lay-chord.ts';
import { useNoteNames } from './note-names.ts';
import { SIGN_PATHS } from './sign-path.ts';
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

const SPOKEN: Readonly<Record<string, string>> = {
  '♭': ' flat ',
  '♯': ' sharp ',
  '𝄫': ' double flat ',
  '𝄪': ' double sharp ',
  '△': ' major ',
  '°': ' diminished ',
  ø: ' half-diminished ',
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

const spoken = (text: string): string =>
  text
    .replace(/[♭♯𝄫𝄪△°ø]/gu, (sign) => SPOKEN[sign] ?? sign)
    .replace('/', ' over ')
    .replace(/\s+/g, ' ')
    .trim();

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
      {chord.pieces.map((piece) => {
        const key = `${piece.kind}${piece.xEm}`;
        const place = `translate(${(piece.xEm * 100).toFixed(2)} ${(piece.yEm * 100).toFixed(2)}) scale(${piece.scale})`;
        if (piece.kind === 'text') {
          return (
            <text key={key} transform={place}>
              {piece.text}
            </text>
          );
        }
        const path = SIGN_PATHS[piece.sign];
        return path.fill === undefined ? (
          <path
            key={key}
            transform={place}
            d={path.stroke}
            className="chord-line"
            strokeWidth={path.strokeWidth}
          />
        ) : (
          <path key={key} transform={place} d={path.fill} />
        );
      })}
      {chord.unknown && <line className="chord-dots" x1="3" x2={chord.widthEm * 100 - 1} y1="10" y2="10" />}
    </svg>
  );
};
