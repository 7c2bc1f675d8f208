import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { FretDiagram } from '../../../client/engraving/fret-diagram.tsx';
import { fretDiagramWords, layFretDiagram } from '../../../client/engraving/lay-fret-diagram.ts';
import { fretInstrumentById, GUITAR } from '../../../common/shapes/fretboard/fret-instrument.ts';
import type { FretShape } from '../../../common/shapes/fretboard/fret-shape.ts';
import { shapesOf } from '../../../common/shapes/fretboard/shapes-of.ts';
import { stringNames } from '../../../common/shapes/fretboard/string-names.ts';
import { readChordSymbol } from '../../../common/theory/chord-symbol.ts';

const STRINGS = stringNames(GUITAR.openMidi, 'english');

const shapesFor = (symbol: string): readonly FretShape[] => {
  const chord = readChordSymbol(symbol);
  if (chord === null) throw new Error(`no chord ${symbol}`);
  return shapesOf(chord, GUITAR);
};

const shapeAt = (symbol: string, frets: string): FretShape => {
  const found = shapesFor(symbol).find((shape) => shape.frets.map((fret) => fret ?? 'x').join(' ') === frets);
  if (found === undefined) throw new Error(`${symbol} has no shape ${frets}`);
  return found;
};

describe('a diagram of the fretboard', () => {
  it('says in words what lies where', () => {
    expect(fretDiagramWords(shapeAt('C7', 'x 3 2 3 x x'), STRINGS)).toBe('x 3 2 3 x x, root on the A string');
    expect(fretDiagramWords(shapeAt('F', '1 3 3 2 1 1'), STRINGS)).toBe(
      '1 3 3 2 1 1, barre at fret 1, root on the low E and D and high E strings',
    );
    expect(fretDiagramWords(shapeAt('C9', 'x x 2 3 3 3'), STRINGS)).toContain('without the root');
  });

  it.each([
    ['bass', 'C7', 'x 3 2 3', 'x 3 2 3, root on the A string'],
    ['ukulele', 'C', '0 0 0 3', '0 0 0 3, root on the C and A strings'],
    ['ukulele', 'G', '0 2 3 2', '0 2 3 2, root on the G and E strings'],
    ['guitar-seven-string', 'C7', 'x x 3 2 3 x x', 'x x 3 2 3 x x, root on the A string'],
    [
      'guitar-half-step-down',
      'Eb',
      '0 2 2 1 0 0',
      '0 2 2 1 0 0, root on the low E flat and D flat and high E flat strings',
    ],
  ])(
    'tells by the names of the strings what lies where: %s %s (common practice, no source)',
    (id, symbol, frets, words) => {
      const instrument = fretInstrumentById(id);
      const chord = readChordSymbol(symbol);
      if (!instrument || !chord) throw new Error(`no ${id} or ${symbol}`);
      const shape = shapesOf(chord, instrument).find(
        (one) => one.frets.map((fret) => fret ?? 'x').join(' ') === frets,
      );
      if (shape === undefined) throw new Error(`${symbol} has no shape ${frets}`);
      const strings = stringNames(instrument.openMidi, 'english');
      for (const leftHanded of [false, true]) {
        const drawn = renderToStaticMarkup(
          <FretDiagram shape={shape} strings={strings} leftHanded={leftHanded} />,
        );
        expect(/aria-label="([^"]*)"/.exec(drawn)?.[1]).toBe(words);
      }
    },
  );

  it('begins at the nut where all lies in the first four frets, else at the lowest fret', () => {
    const low = layFretDiagram(shapeAt('C', 'x 3 2 0 1 0'), false);
    expect(low).toMatchObject({ hasNut: true, number: null });
    const high = layFretDiagram(shapeAt('Bb7', '6 8 6 7 6 6'), false);
    expect(high).toMatchObject({ hasNut: false, number: { fret: 6 } });
  });

  it('keeps everything within its frame, for every shape of the guitar, also mirrored', () => {
    for (const shape of ['C', 'Gm7', 'F#7b9'].flatMap(shapesFor)) {
      for (const leftHanded of [false, true]) {
        const laid = layFretDiagram(shape, leftHanded);
        for (const { x, y } of laid.strings) {
          if (y === null) continue;
          const inside = x >= 10 && x <= laid.width - 10 && y >= 10 && y <= laid.height - 10;
          if (!inside) throw new Error(`${shape.frets.join(' ')} leaves the frame`);
        }
      }
    }
  });

  it('is its own mirror image for the left hand', () => {
    const shape = shapeAt('G7', '3 x 3 4 x x');
    const right = layFretDiagram(shape, false);
    const left = layFretDiagram(shape, true);
    expect(left.strings.map(({ x }) => left.width - x)).toEqual(right.strings.map(({ x }) => x));
    expect(left.strings.map(({ y }) => y)).toEqual(right.strings.map(({ y }) => y));
  });

  it('draws the root square, other fingers round, and a mark over each silent and open string', () => {
    const markup = renderToStaticMarkup(
      <FretDiagram shape={shapeAt('C', 'x 3 2 0 1 0')} strings={STRINGS} leftHanded={false} />,
    );
    const count = (pattern: RegExp) => markup.match(pattern)?.length ?? 0;
    expect(count(/<rect[^>]*data-root/g)).toBe(2);
    expect(count(/class="fret-silent"/g)).toBe(1);
    expect(count(/<circle class="fret-open"/g)).toBe(2);
    expect(count(/<circle cx/g)).toBe(1);
    expect(count(/class="fret-string"/g)).toBe(5);
    expect(count(/class="fret-unplayed"/g)).toBe(1);
    expect(markup).toContain('aria-label="x 3 2 0 1 0, root on the A and B strings"');
  });
});
