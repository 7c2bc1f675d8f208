import fc from 'fast-check';
import { Note } from 'tonal';
import { describe, expect, it } from 'vitest';
import {
  FRET_INSTRUMENTS,
  fretInstrumentById,
  GUITAR,
} from '../../../../common/shapes/fretboard/fret-instrument.ts';
import { openStringsText, stringNames } from '../../../../common/shapes/fretboard/string-names.ts';
import { readTuning } from '../../../../common/shapes/fretboard/tuning.ts';
import { NOTE_NAMES, type NoteNames, noteName } from '../../../../common/theory/note-name.ts';
import { noteAt } from '../../../../common/theory/pitch.ts';

const customs = fc.constantFrom(...NOTE_NAMES);

const midi = (typed: string, like = GUITAR.openMidi, names: NoteNames = 'english') => {
  const tuning = readTuning(typed, like, names);
  return tuning.ok ? tuning.value.openMidi : tuning.error;
};

describe('[SHAPE-14] a tuning', () => {
  it('is read from note names with octaves, in any signs and with any marks between', () => {
    expect(midi('E2 A2 D3 G3 B3 E4', [])).toEqual([40, 45, 50, 55, 59, 64]);
    expect(midi('e2, a2, d3, g3, b3, e4', [])).toEqual([40, 45, 50, 55, 59, 64]);
    expect(midi('E♭2-A♭2-D♭3-G♭3-B♭3-E♭4', [])).toEqual([39, 44, 49, 54, 58, 63]);
    expect(midi('Cb4 B#3 C4', [])).toEqual([59, 60, 60]);
  });

  it('is read back from the text of its strings, in any names', () => {
    expect(openStringsText([35, 40, 45, 50, 55, 59, 64], 'german')).toBe('H1 E2 A2 D3 G3 H3 E4');
    const strings = fc.array(fc.integer({ min: 21, max: 84 }), { minLength: 3, maxLength: 10 });
    fc.assert(
      fc.property(strings, customs, (openMidi, names) => {
        expect(midi(openStringsText(openMidi, names), [], names)).toEqual(openMidi);
      }),
    );
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
    ['D A H G A D', 'no-note', '“H” is no note as you call them: here it is B'],
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
    fc.assert(
      fc.property(fc.string(), customs, (typed, names) => void readTuning(typed, GUITAR.openMidi, names)),
    );
  });
});

describe('[SHAPE-14] a tuning in the player’s own names', () => {
  it('reads H and B, and what is typed for sharps and flats there (common practice, no source)', () => {
    expect(midi('E A D G H E', GUITAR.openMidi, 'german')).toEqual(GUITAR.openMidi);
    expect(midi('eadghe', GUITAR.openMidi, 'german')).toEqual(GUITAR.openMidi);
    expect(midi('Es2 As2 Des3 Ges3 B3 Es4', [], 'german')).toEqual([39, 44, 49, 54, 58, 63]);
    expect(midi('EsAsDesGesBEs', GUITAR.openMidi, 'german')).toEqual([39, 44, 49, 54, 58, 63]);
    expect(midi('D A D Fis A D', GUITAR.openMidi, 'german')).toEqual([38, 45, 50, 54, 57, 62]);
  });

  it('says how B was read where it is B♭, and what means two notes', () => {
    const read = readTuning('E A D G B E', GUITAR.openMidi, 'german');
    expect(read).toMatchObject({ ok: true, value: { openMidi: [40, 45, 50, 55, 58, 64] } });
    expect(read.ok && read.value.remark).toContain('B is read as B♭');
    const plain = readTuning('E A D G H E', GUITAR.openMidi, 'german');
    expect(plain.ok && plain.value.remark).toBeNull();
    expect(midi('E A D G B# E', GUITAR.openMidi, 'german')).toMatchObject({ kind: 'no-note', token: 'B#' });
  });

  it('reads syllables, their words for sharps and flats, and letters beside them', () => {
    expect(midi('Mi La Re Sol Si Mi', GUITAR.openMidi, 'solfege')).toEqual(GUITAR.openMidi);
    expect(midi('Ré2 La2 Ré3 Fa♯3 La3 Ré4', [], 'solfege')).toEqual([38, 45, 50, 54, 57, 62]);
    expect(midi('mi bemolle, la bémol, reb, solb, si bemolle, mib', GUITAR.openMidi, 'solfege')).toEqual([
      39, 44, 49, 54, 58, 63,
    ]);
    expect(midi('ReLaReSolLaRe', GUITAR.openMidi, 'solfege')).toEqual([38, 45, 50, 55, 57, 62]);
    expect(midi('DADGAD', GUITAR.openMidi, 'solfege')).toEqual([38, 45, 50, 55, 57, 62]);
    expect(midi('Re La', GUITAR.openMidi, 'solfege')).toMatchObject({
      words: 'A tuning needs at least 3 strings, such as Re La Re Sol La Re.',
    });
  });

  it('what is printed in a custom reads back in it, with octaves and without', () => {
    const strings = fc.array(fc.tuple(fc.integer({ min: -12, max: 16 }), fc.integer({ min: 2, max: 4 })), {
      minLength: 3,
      maxLength: 10,
    });
    fc.assert(
      fc.property(strings, customs, fc.constantFrom(' ', ', ', '-'), (notes, names, between) => {
        const typed = notes.map(([fifths, octave]) => noteName(noteAt(fifths), names) + octave).join(between);
        const pitches = notes.map(([fifths, octave]) => Note.midi(noteAt(fifths) + octave) ?? Number.NaN);
        expect(midi(typed, [], names)).toEqual(pitches);
        const bare = typed.replace(/\d/g, '');
        expect(midi(bare, pitches, names)).toEqual(pitches);
      }),
      { numRuns: 500 },
    );
  });
});

describe('[SHAPE-18] what strings are called', () => {
  const called = (id: string, names: NoteNames = 'english'): string =>
    stringNames(fretInstrumentById(id)?.openMidi ?? [], names).join(', ');

  it.each([
    ['guitar', 'low E, A, D, G, B, high E'],
    ['guitar-dadgad', 'low D, low A, middle D, G, high A, high D'],
    ['guitar-half-step-down', 'low E♭, A♭, D♭, G♭, B♭, high E♭'],
    ['guitar-open-d', 'low D, low A, middle D, F♯, high A, high D'],
    ['guitar-seven-string', 'low B, low E, A, D, G, high B, high E'],
    ['bass', 'E, A, D, G'],
    ['bass-five-string', 'B, E, A, D, G'],
    ['ukulele', 'G, C, E, A'],
    ['mandolin', 'G, D, A, E'],
  ])('%s (common practice, no source)', (id, words) => {
    expect(called(id)).toBe(words);
  });

  it('in the names of the player, and never two alike', () => {
    expect(called('guitar', 'german')).toBe('low E, A, D, G, H, high E');
    expect(called('guitar', 'solfege')).toBe('low Mi, La, Re, Sol, Si, high Mi');
    const pitches = fc.array(fc.integer({ min: 21, max: 84 }), { minLength: 3, maxLength: 10 });
    fc.assert(
      fc.property(pitches, customs, (openMidi, names) => {
        expect(new Set(stringNames(openMidi, names)).size).toBe(openMidi.length);
      }),
    );
  });
});

describe('instruments', () => {
  it('are found by their ids, each once', () => {
    for (const each of FRET_INSTRUMENTS) expect(fretInstrumentById(each.id)).toBe(each);
    expect(fretInstrumentById('lute')).toBeUndefined();
  });
});
