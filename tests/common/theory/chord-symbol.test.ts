import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readChordSymbol } from '../../../common/theory/chord-symbol.ts';
import { symbolText } from './symbol-arbitrary.ts';

const degrees = (text: string): string | undefined => readChordSymbol(text)?.degrees.join(' ');

describe('one chord, many spellings', () => {
  it.each([
    ['1 3 5', 'C Cmaj Cma CM Cmajor CMAJ'],
    ['1 b3 5', 'Cm C- C– Cmin Cmi CMI Cminor'],
    ['1 b3 b5', 'Cdim C° Cº C˚ Co CDIM Cdiminished Cm(b5) Cmb5'],
    ['1 3 #5', 'C+ Caug C(#5) C+5 Caug5 CAUG'],
    ['1 3 5 7', 'Cmaj7 CMaj7 CM7 Cma7 CMA7 CΔ C∆ C△7 C7M C(maj7) Cmajor7 C7maj'],
    [
      '1 b3 5 7',
      'Cm(maj7) CmM7 CmMaj7 Cmmaj7 C-Δ C-Δ7 Cmin/maj7 Cm/M7 CminMaj7 C-M7 Cm7M Cm+7 Cm(#7) CMIMA7',
    ],
    ['1 b3 5 7 9', 'Cm(maj9) CmM9 Cm9(maj7) Cm9maj7 C-9(maj7) Cmi9(ma7)'],
    ['1 b3 5 7 9 11', 'Cm11(maj7) CmM11'],
    ['1 b3 b5 b7', 'Cm7b5 Cø CØ7 C∅ Cm7(b5) C-7b5 Cmi7(-5) Cm7-5 Cmin7♭5 Chalfdim7'],
    ['1 b3 b5 bb7', 'C°7 Cdim7 Co7 Cdiminished7'],
    ['1 b3 b5 7', 'C°M7 Cdim(maj7) CoΔ'],
    ['1 3 #5 b7', 'C7#5 C7+ C+7 Caug7 C7(#5) C7(+5) C7+5 C7aug C7aug5'],
    ['1 3 #5 7', 'Cmaj7#5 C+M7 CΔ+ CaugMaj7 CM7+5 C+Δ7'],
    ['1 3 #5 b7 9', 'C9#5 C+9 Caug9 C9+ C9(#5)'],
    ['1 3 5 b7 b9', 'C7b9 C7(b9) C7-9 C7♭9 C7(-9) C7/b9'],
    ['1 3 5 b7 #9', 'C7#9 C7+9 C7(#9) C7♯9 C7aug9'],
    ['1 3 5 b7 b9 #11', 'C7b9#11 C7(b9 #11) C7(b9,#11) C7(b9)(#11) C7b9/#11 C7(#11b9) C7(b9, #11)'],
    ['1 3 5 b7 9', 'C9 C7(9) C7/9 C7add9 Cdom9'],
    ['1 3 5 b7 13', 'C7(13) C7add13 C7/13'],
    ['1 3 5 b7 9 11 13', 'C13'],
    ['1 3 5 b7 b9 11 13', 'C13b9 C13(b9) C13-9'],
    ['1 3 5 b7 9 #11 13', 'C13#11 C13+11 C13(#11)'],
    ['1 3 5 b7 9 11', 'C11'],
    ['1 3 5 6 9', 'C6/9 C69 C6add9 C6(9) CM69 C(6/9)'],
    ['1 4 5', 'Csus Csus4 Csuspended4 CSUS Cmsus4 C4'],
    ['1 2 5', 'Csus2'],
    ['1 2 4 5', 'Csus24 Csus2sus4 Csus4sus2 Csus2/4 Csus4/2'],
    ['1 4 5 b7', 'C7sus C7sus4 Csus7 C7(sus4) Cm7sus4 C7sus(no3)'],
    ['1 4 5 b7 9', 'C9sus C9sus4 Csus9 C7sus4(9)'],
    ['1 4 5 b7 b9 13', 'C13susb9 C7sus(b9,13) C13b9sus4'],
    ['1 2 3 5', 'C2 Cadd2 C(add2)'],
    ['1 3 5 9', 'Cadd9 C(add9) C(9) C/9 Cmajadd9 CMadd9 CADD9 C(add 9)'],
    ['1 b3 5 9', 'Cmadd9 Cm(add9) C-add9 Cmin(add9)'],
    ['1 5', 'C5 C(no3) Cno3 Comit3 C(no 3rd)'],
    ['1 3 b7', 'C7no5 C7(no5) C7omit5 C7(omit 5)'],
    ['1 3 b5 #5 b7 b9 #9', 'C7alt Calt C7(alt) C7alt. Calt7 Caltered C7ALT'],
  ])('%s: %s', (expected, spellings) => {
    for (const spelling of spellings.split(/ (?=C)/))
      expect([spelling, degrees(spelling)]).toEqual([spelling, expected]);
  });
});

describe('root and bass', () => {
  it.each([
    ['Bb9', 'Bb', undefined, '1 3 5 b7 9'],
    ['B7b9', 'B', undefined, '1 3 5 b7 b9'],
    ['C#5', 'C#', undefined, '1 5'],
    ['B♭-7/E♭', 'Bb', 'Eb', '1 b3 5 b7'],
    ['Fbb', 'Fbb', undefined, '1 3 5'],
    ['F𝄪m/A𝄪', 'F##', 'A##', '1 b3 5'],
    ['Bdim', 'B', undefined, '1 b3 b5'],
    ['Badd9', 'B', undefined, '1 3 5 9'],
    ['C6/9', 'C', undefined, '1 3 5 6 9'],
    ['C6/9/E', 'C', 'E', '1 3 5 6 9'],
    ['C7(b9 #11)/Bb', 'C', 'Bb', '1 3 5 b7 b9 #11'],
    ['Am7/G', 'A', 'G', '1 b3 5 b7'],
  ])('%s', (typed, root, bass, expected) => {
    const symbol = readChordSymbol(typed);
    expect(symbol).toMatchObject({ typed, root });
    expect(symbol?.bass).toBe(bass);
    expect(degrees(typed)).toBe(expected);
  });
});

describe('what is not read', () => {
  it.each([
    ...[
      'C^7',
      'Ch7',
      'C%7',
      'Cj7',
      'c7',
      'am7',
      'H7',
      'C7q',
      'Cfoo',
      'C13b22',
      'C7#13',
      'C15',
      'C3',
      'C10',
      'C8',
    ],
    ...[
      '',
      'N.C.',
      'NC',
      '/G',
      '%',
      'r',
      'C/',
      'C/e',
      'C/H',
      'C/G/E',
      'D/C7',
      'C//E',
      'C7b9b9',
      'C9add9',
      'C-5',
    ],
    ...['C7(', 'C7)', 'C()', 'C7(b9', 'C7((b9))', 'C7(b9,)', 'C7(,b9)', 'C7[b9]', 'C7 b9', 'C7b 9', 'C maj7'],
    ...[
      'C7(maj7)',
      'Cm7(maj7)',
      'Cm9(maj7)(maj7)',
      'C7maj7',
      'Cmm',
      'Cdimdim',
      'Csussus',
      'Cdimsus4',
      'C5b9',
      'C7altb9',
      'Cm7alt',
      'Cmaj5',
      'CΔ6',
    ],
    ...[
      'Cno7',
      'Cm(no9)',
      'C###',
      'Cdim#5',
      'C7-',
      'C7b',
      'C7#',
      'Cadd',
      'Cadd10',
      'Cdom',
      'Cbreak',
      'Coda',
      'Dal',
    ],
    ...['Am7?', 'Fine', 'Eb7x', 'C713', 'C7b99', 'Cø6', 'C7\u0000', 'Cconstructor'],
  ])('"%s"', (typed) => expect(readChordSymbol(typed)).toBeNull());

  it('never throws, whatever is typed', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary' }), symbolText), (typed) => {
        expect(() => readChordSymbol(typed)).not.toThrow();
      }),
    );
  });
});

describe('the reading of a symbol', () => {
  it('is the same each time it is asked for', () => {
    expect(readChordSymbol('Eb7')).toBe(readChordSymbol('Eb7'));
    expect(readChordSymbol(' Eb7 ')?.typed).toBe('Eb7');
  });

  it('has the root first, each degree once and in rising order', () => {
    const number = (degree: string) => Number(degree.replace(/[b#]/g, ''));
    fc.assert(
      fc.property(symbolText, (typed) => {
        const read = readChordSymbol(typed)?.degrees ?? [];
        expect(new Set(read).size).toBe(read.length);
        expect(read.map(number)).toEqual(read.map(number).sort((one, other) => one - other));
      }),
    );
  });

  it('does not depend on the look of the signs', () => {
    fc.assert(
      fc.property(symbolText, (typed) => {
        const pretty = typed
          .replaceAll('b', '♭')
          .replaceAll('#', '♯')
          .replaceAll('-', '–')
          .replaceAll('Δ', '∆');
        expect(degrees(pretty)).toBe(degrees(typed));
      }),
    );
  });

  it('is fast: ten thousand readings of a tune take well under a second', () => {
    const tune = ['Eb7', 'Ab7', 'Adim7', 'C7alt', 'Fm7', 'Bb7', 'Gm7b5', 'C7b9', 'Eb6/9'];
    const started = performance.now();
    for (let count = 0; count < 10_000; count++) readChordSymbol(tune[count % tune.length] ?? '');
    expect(performance.now() - started).toBeLessThan(500);
  });
});
