import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CAP_HEIGHT, textWidthEm } from '../../../client/engraving/chord-metrics.ts';
import { layChord } from '../../../client/engraving/lay-chord.ts';
import { SIGN_PATHS } from '../../../client/engraving/sign-path.ts';
import { readChordSymbol } from '../../../common/theory/chord-symbol.ts';
import { NOTE_NAMES, type NoteNames } from '../../../common/theory/note-name.ts';

const lay = (typed: string, names: NoteNames = 'english') => layChord(typed, readChordSymbol(typed), names);
const drawn = (typed: string, names: NoteNames = 'english') =>
  lay(typed, names).pieces.map((piece) => (piece.kind === 'text' ? piece.text : `<${piece.sign}>`));

const SYMBOLS = [
  ...['F7', 'Bb7', 'Adim7', 'C7alt', 'Gm7b5', 'C7b9', 'Ebm7b5/Bbb', 'F#m7', 'C(b9 #11)', 'Abmaj7', 'C6/9'],
  ...['Gsus4', 'G9sus', 'Db+', 'Dm(maj7)', 'Fbb7', 'F##m7', 'H7', 'Am7x', 'N.C.', 'Cadd9', 'Cno3', 'Eb7/G'],
];

describe('a chord set like type', () => {
  it('puts the root on the baseline and quality and extensions above it at 56 %', () => {
    const [root, raised] = lay('F7').pieces;
    expect(root).toMatchObject({ kind: 'text', text: 'F', yEm: 0, scale: 1 });
    expect(raised).toMatchObject({ kind: 'text', text: '7', scale: 0.56 });
    expect(raised?.yEm).toBeCloseTo(-(CAP_HEIGHT - 0.56 * CAP_HEIGHT), 9);
  });

  it('draws accidentals as signs, never as the letters b and #', () => {
    expect(drawn('Bb7')).toEqual(['B', '<flat>', '7']);
    expect(drawn('C#7b9').filter((piece) => piece.startsWith('<'))).toEqual(['<sharp>', '<flat>']);
    expect(drawn('Bbb7/F##')).toEqual(['B', '<doubleFlat>', '7', '/F', '<doubleSharp>']);
  });

  it('draws one sign for each of the spellings of a quality', () => {
    expect(drawn('Gm7b5')).toEqual(drawn('Gø'));
    expect(drawn('Cmaj7')).toEqual(drawn('CΔ7'));
    expect(drawn('Bdim7')).toEqual(drawn('B°7'));
  });

  it('sets the bass on the baseline after everything else', () => {
    const { pieces } = lay('Ebm7b5/Bbb');
    const slash = pieces.findIndex((piece) => piece.kind === 'text' && piece.text.startsWith('/'));
    expect(slash).toBeGreaterThan(0);
    expect(pieces[slash]).toMatchObject({ yEm: 0 });
    expect(pieces.slice(slash + 1).map((piece) => piece.kind)).toEqual(['sign']);
  });

  it('draws an unknown symbol as typed and marks it, N.C. as a sign of the trade', () => {
    expect(lay('H7')).toMatchObject({ unknown: true, pieces: [{ kind: 'text', text: 'H7' }] });
    expect(lay('N.C.').unknown).toBe(false);
  });

  it('calls root and bass as the reader does, and nothing else', () => {
    expect(drawn('Bb7/B', 'german')).toEqual(['B', '7', '/H']);
    expect(drawn('Bmaj7b5', 'german')).toEqual(['H', '<triangle>', '7', '<flat>', '5']);
    expect(drawn('G#m7/D#', 'solfege')).toEqual(['Sol', '<sharp>', 'm', '7', '/Re', '<sharp>']);
    expect(drawn('N.C.', 'solfege')).toEqual(['N.C.']);
    expect(drawn('H7', 'german')).toEqual(['H7']);
    expect(lay('G', 'solfege').widthEm).toBeCloseTo(textWidthEm('Sol'), 9);
  });

  it.each(NOTE_NAMES.flatMap((names) => SYMBOLS.map((typed) => ({ names, typed }))))(
    'keeps every piece of $typed inside its width, one after the other ($names)',
    ({ names, typed }) => {
      const { pieces, widthEm } = lay(typed, names);
      let at = 0;
      for (const piece of pieces) {
        const width = piece.kind === 'text' ? textWidthEm(piece.text) : SIGN_PATHS[piece.sign].widthEm;
        expect(piece.xEm).toBeGreaterThanOrEqual(at - 1e-9);
        at = piece.xEm + width * piece.scale;
      }
      expect(at).toBeLessThanOrEqual(widthEm + 1e-9);
    },
  );

  it('has a width for whatever was typed', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 30 }), (typed) => {
        const { widthEm } = lay(typed);
        expect(Number.isFinite(widthEm) && widthEm > 0).toBe(true);
      }),
      { numRuns: 300, seed: 7 },
    );
  });
});
