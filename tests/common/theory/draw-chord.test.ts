import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readChordSymbol } from '../../../common/theory/chord-symbol.ts';
import symbols from '../../published/chords/chord-symbols.json';
import { symbolText } from './symbol-arbitrary.ts';

const look = (text: string): string | undefined => {
  const drawn = readChordSymbol(text)?.drawn;
  return drawn === undefined ? undefined : `${drawn.base}|${drawn.raised}`;
};

describe('how a chord is drawn', () => {
  it.each([
    ['C', '|'],
    ['Cmin', 'm|'],
    ['C-7', 'm|7'],
    ['CMA7', '|△7'],
    ['Cmaj9#11', '|△9♯11'],
    ['CmMaj7', 'm|△7'],
    ['Cm7b5', '|ø'],
    ['Cø9', '|ø9'],
    ['Cdim', '|°'],
    ['Co7', '|°7'],
    ['C°M7', '|°△7'],
    ['Caug', '|+'],
    ['C+7', '|7♯5'],
    ['C7(#9#5)', '|7♯5♯9'],
    ['C(b5)', '|(♭5)'],
    ['Csus4', 'sus|'],
    ['Csus2', 'sus|2'],
    ['C7sus4', '|7sus'],
    ['C7b9sus4', '|7sus♭9'],
    ['C9sus2', '|7sus2'],
    ['C13(b9)', '|13♭9'],
    ['C7(b9,13)', '|7♭9add13'],
    ['C69', '|6/9'],
    ['C-69', 'm|6/9'],
    ['C5', '|5'],
    ['C7omit3', '|7no3'],
    ['C2', '|add2'],
    ['Cm(add9)', 'm|add9'],
    ['Calt', '|7alt'],
    ['C7b5#5b9#9', '|7alt'],
  ])('%s as %s', (typed, expected) => expect(look(typed)).toBe(expected));

  it('reads back as the same chord, so it cannot be taken for another', () => {
    const texts = fc.oneof(symbolText, fc.constantFrom(...symbols.rows.map(({ symbol }) => symbol)));
    fc.assert(
      fc.property(texts, (typed) => {
        const symbol = readChordSymbol(typed);
        fc.pre(symbol !== null);
        const again = readChordSymbol(symbol.root + symbol.drawn.base + symbol.drawn.raised);
        expect([typed, again?.degrees]).toEqual([typed, symbol.degrees]);
        expect(again?.drawn).toEqual(symbol.drawn);
      }),
      { numRuns: 3000 },
    );
  });

  it('differs for different degrees, and is one for the same, throughout the table', () => {
    const looks = new Map<string, string>();
    for (const { symbol, degrees } of symbols.rows) {
      const drawn = look(symbol) ?? '';
      expect(looks.get(drawn) ?? degrees.join(' ')).toBe(degrees.join(' '));
      looks.set(drawn, degrees.join(' '));
    }
    expect(looks.size).toBe(new Set(symbols.rows.map(({ degrees }) => degrees.join(' '))).size);
  });

  it('uses no sign beyond those a stand can draw', () => {
    fc.assert(
      fc.property(symbolText, (typed) => {
        fc.pre(readChordSymbol(typed) !== null);
        expect(look(typed)).toMatch(/^(m|sus)?\|[0-9a-z△°ø♭♯𝄫+/()]*$/u);
      }),
    );
  });
});
