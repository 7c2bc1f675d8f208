import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  FRET_INSTRUMENTS,
  fretInstrumentById,
  GUITAR,
} from '../../../../common/shapes/fretboard/fret-instrument.ts';
import { readTuning } from '../../../../common/shapes/fretboard/tuning.ts';

const midi = (typed: string, like = GUITAR.openMidi) => {
  const tuning = readTuning(typed, like);
  return tuning.ok ? tuning.value : tuning.error;
};

describe('[SHAPE-14] a tuning', () => {
  it('is read from note names with octaves, in any signs and with any marks between', () => {
    expect(midi('E2 A2 D3 G3 B3 E4', [])).toEqual([40, 45, 50, 55, 59, 64]);
    expect(midi('e2, a2, d3, g3, b3, e4', [])).toEqual([40, 45, 50, 55, 59, 64]);
    expect(midi('E♭2-A♭2-D♭3-G♭3-B♭3-E♭4', [])).toEqual([39, 44, 49, 54, 58, 63]);
    expect(midi('Cb4 B#3 C4', [])).toEqual([59, 60, 60]);
  });

  it('without octaves lies nearest to the instrument’s own strings', () => {
    expect(midi('D A D G B E')).toEqual([38, 45, 50, 55, 59, 64]);
    expect(midi('D A D G A D')).toEqual([38, 45, 50, 55, 57, 62]);
    expect(midi('C G C G C E')).toEqual([36, 43, 48, 55, 60, 64]);
  });

  it('is read in one word as well, as players write it', () => {
    expect(midi('DADGAD')).toEqual([38, 45, 50, 55, 57, 62]);
    expect(midi('eadgbe')).toEqual(GUITAR.openMidi);
    expect(midi('EbAbDbGbBbEb')).toEqual([39, 44, 49, 54, 58, 63]);
    expect(midi('gDgBd')).toMatchObject({ kind: 'too-few-strings' });
  });

  it.each<[string, string, string]>([
    ['D A H G A D', 'no-note', '“H” is no note'],
    ['D A', 'too-few-strings', 'at least 3'],
    ['D A D G', 'octaves-needed', 'Here are 4 strings and the instrument has 6'],
    ['E2 A2 D3 G3 B3 E14', 'out-of-range', 'No string sounds at E14'],
    ['A A A A A A A A A A A', 'too-many-strings', 'These are 11 strings'],
  ])('that cannot be taken is told in plain words: %s', (typed, kind, words) => {
    const problem = midi(typed);
    expect(problem).toMatchObject({ kind });
    expect('words' in problem ? problem.words : '').toContain(words);
  });

  it('never throws, whatever is typed', () => {
    fc.assert(fc.property(fc.string(), (typed) => void readTuning(typed, GUITAR.openMidi)));
  });
});

describe('instruments', () => {
  it('are found by their ids, each once', () => {
    for (const each of FRET_INSTRUMENTS) expect(fretInstrumentById(each.id)).toBe(each);
    expect(fretInstrumentById('lute')).toBeUndefined();
  });
});
