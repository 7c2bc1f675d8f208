import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { HelpRow } from '../../../client/engraving/help-row.tsx';
import { layFretDiagram } from '../../../client/engraving/lay-fret-diagram.ts';
import { readChart } from '../../../common/chart/read-chart.ts';
import { unroll } from '../../../common/form/unroll.ts';
import { type HelpWish, roadHelp } from '../../../common/help/road-help.ts';
import { GUITAR } from '../../../common/shapes/fretboard/fret-instrument.ts';
import { shapesOf } from '../../../common/shapes/fretboard/shapes-of.ts';
import { stringNames } from '../../../common/shapes/fretboard/string-names.ts';
import { readChordSymbol } from '../../../common/theory/chord-symbol.ts';
import { CONCERT } from '../../../common/theory/transpose.ts';

const NECK = { leftHanded: false, strings: stringNames(GUITAR.openMidi, 'english') };
const SHAPES: HelpWish = { kind: 'shapes', instrument: GUITAR, kinds: ['shell'] };

/** The row under the first bar of such music. */
const row = (bar: string, wish: HelpWish): string => {
  const { road } = unroll(readChart(`key: F\n[A]\n| ${bar} |\n`).chart);
  const music = road.legs[0]?.bars[0]?.content.music;
  const helps = roadHelp(road, wish, CONCERT)[0]?.pass[0];
  if (!music || !helps) throw new Error(`nothing is read of ${bar}`);
  return renderToStaticMarkup(<HelpRow music={music} read={(symbol) => symbol} helps={helps} neck={NECK} />);
};
const columns = (drawn: string): string => /grid-template-columns:([^;"]*)/.exec(drawn)?.[1] ?? '';

describe('what stands under the chords of a bar', () => {
  it('is as wide as its chord where there is one, and has its share of the bar where there are several', () => {
    expect(columns(row('Gm7', SHAPES))).toMatch(/^minmax\([\d.]+em, 4fr\)$/);
    const shared = row('Gm7 D7 Gm7 C7', SHAPES);
    expect(columns(shared)).toBe(Array(4).fill('minmax(min(var(--least), var(--share)), 1fr)').join(' '));
    expect(shared).toContain('--share:25.00cqw');
    // A rest takes no room from the chords.
    expect(columns(row('Gm7 r r C7', SHAPES))).toMatch(/^minmax\(min.*1fr\) minmax\(0px, 2fr\) minmax\(min/);
  });

  it('is drawn narrow from three chords on: the fret number above, notes instead of keys, no degrees', () => {
    expect(row('Gm7 C7', SHAPES)).not.toContain('data-narrow');
    expect(row('Gm7 / D7 C7', SHAPES).match(/<text[^>]*data-narrow/g)).toHaveLength(3);
    const keys: HelpWish = { kind: 'voicings', style: 'shells' };
    expect(row('Gm7 C7', keys)).toContain('keyboard-key');
    const notes = row('Gm7 C7 F7 D7', keys);
    expect(notes).not.toContain('keyboard-key');
    expect(notes.match(/aria-label="left hand G \(the root\)/g)).toHaveLength(1);
    expect(row('Gm7 C7', { kind: 'guides' })).toContain('<small>');
    expect(row('Gm7 C7 F7 D7', { kind: 'guides' })).not.toContain('<small>');
  });

  it('a narrow diagram is larger in the same width, and keeps within its frame', () => {
    for (const shape of ['C', 'Gm7', 'F#7b9'].flatMap((text) => {
      const chord = readChordSymbol(text);
      return chord === null ? [] : shapesOf(chord, GUITAR);
    })) {
      for (const leftHanded of [false, true]) {
        const [wide, narrow] = [false, true].map((way) => layFretDiagram(shape, leftHanded, way));
        if (!wide || !narrow) throw new Error('nothing is laid');
        expect(narrow.width).toBeLessThan(0.82 * wide.width);
        for (const { x, y } of narrow.strings) {
          expect(x >= 10 && x <= narrow.width - 10).toBe(true);
          if (y !== null) expect(y >= narrow.marksY + 10 && y <= narrow.height - 10).toBe(true);
        }
      }
    }
  });
});
