import fc from 'fast-check';
import { Key as TonalKey } from 'tonal';
import { describe, expect, it } from 'vitest';
import { type Mode, makeKey, printKey, readKey } from '../../../common/theory/key.ts';

const MODES: readonly Mode[] = [
  ...(['major', 'minor', 'blues', 'minor blues', 'ionian', 'dorian', 'phrygian', 'lydian'] as const),
  ...(['mixolydian', 'aeolian', 'locrian'] as const),
];
const TONICS = [...'ABCDEFG'].flatMap((letter) => [letter, `${letter}b`, `${letter}#`]);

describe('reading a key', () => {
  it.each([
    ['C', 'C', 'major', 0],
    ['Eb', 'Eb', 'major', -3],
    ['E♭ blues', 'Eb', 'blues', -3],
    ['F# maj', 'F#', 'major', 6],
    ['Bb Major', 'Bb', 'major', -2],
    ['Am', 'A', 'minor', 0],
    ['A-', 'A', 'minor', 0],
    ['A –', 'A', 'minor', 0],
    ['F♯ minor', 'F#', 'minor', 3],
    ['C minor blues', 'C', 'minor blues', -3],
    ['Cm blues', 'C', 'minor blues', -3],
    ['D Dorian', 'D', 'dorian', 0],
    ['F lydian', 'F', 'lydian', 0],
    ['G  mixolydian', 'G', 'mixolydian', 0],
    ['E phrygian', 'E', 'phrygian', 0],
    ['B locrian', 'B', 'locrian', 0],
    ['CM', 'C', 'major', 0],
  ])('reads %s', (typed, tonic, mode, fifths) => {
    expect(readKey(typed)).toEqual({ tonic, mode, fifths });
  });

  it.each([
    '',
    'H',
    'eb',
    'c minor',
    'C foo',
    'C#x',
    'major',
    'C7',
    'Eb blues?',
    'C constructor',
    'C toString',
  ])('does not read "%s"', (typed) => expect(readKey(typed)).toBeNull());

  it('reads back what it prints', () => {
    fc.assert(
      fc.property(fc.constantFrom(...TONICS), fc.constantFrom(...MODES), (tonic, mode) => {
        const key = makeKey(tonic, mode);
        expect(readKey(printKey(key))).toEqual(key);
      }),
    );
  });

  it('has the signatures that tonal has', () => {
    for (const tonic of TONICS) {
      expect(makeKey(tonic, 'major').fifths).toBe(TonalKey.majorKey(tonic).alteration);
      expect(makeKey(tonic, 'minor').fifths).toBe(TonalKey.minorKey(tonic).alteration);
    }
  });

  it('prints a key in words', () => {
    expect(printKey(makeKey('Eb', 'blues'))).toBe('E♭ blues');
    expect(printKey(makeKey('F#', 'minor'))).toBe('F♯ minor');
  });
});
