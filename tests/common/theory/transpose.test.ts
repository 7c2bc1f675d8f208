import fc from 'fast-check';
import { Note } from 'tonal';
import { describe, expect, it } from 'vitest';
import { readChordSymbol } from '../../../common/theory/chord-symbol.ts';
import { chordPitchClasses, chordTones, degreeFifths } from '../../../common/theory/chord-tones.ts';
import { INSTRUMENTS, instrumentById } from '../../../common/theory/instruments.ts';
import { type Key, makeKey, printKey, readKey } from '../../../common/theory/key.ts';
import { fifthsOf, noteAt, pitchClassOf } from '../../../common/theory/pitch.ts';
import {
  CONCERT,
  inverseReading,
  type Reading,
  readingFor,
  transposeKey,
  transposeNote,
  transposeSymbol,
} from '../../../common/theory/transpose.ts';
import { symbolText } from './symbol-arbitrary.ts';

const key = fc
  .tuple(fc.integer({ min: -8, max: 8 }), fc.constantFrom('major', 'minor', 'blues', 'dorian', 'minor blues'))
  .map(([fifths, mode]): Key => makeKey(noteAt(fifths), mode as Key['mode']));
const semitones = fc.integer({ min: -30, max: 30 });
const mod12 = (number: number): number => ((number % 12) + 12) % 12;
const tonic = (text: string, distance: number): string => {
  const read = readKey(text);
  if (read === null) throw new Error(`not a key: ${text}`);
  return printKey(transposeKey(read, readingFor(read, distance)));
};
/** One sign or none: what a chart may have for a root. */
const isSimple = (note: string): boolean => note.length <= 2;

describe('the reading of a part', () => {
  it.each([
    ['Eb blues', 'tenor-sax', 'F blues'],
    ['Eb blues', 'alto-sax', 'C blues'],
    ['E', 'alto-sax', 'D♭ major'],
    ['B', 'trumpet', 'D♭ major'],
    ['E', 'trumpet', 'G♭ major'],
    ['F# minor', 'trumpet', 'G♯ minor'],
    ['A minor', 'baritone-sax', 'F♯ minor'],
    ['F', 'horn-in-f', 'C major'],
    ['F#', 'guitar', 'F♯ major'],
    ['C#', 'piano', 'C♯ major'],
    ['G', 'clarinet-in-a', 'B♭ major'],
  ])('%s for %s is %s', (concert, id, expected) => {
    expect(tonic(concert, instrumentById(id)?.semitonesUp ?? Number.NaN)).toBe(expected);
  });

  it('finds the key after a modulation anew for each reader', () => {
    expect(tonic('F', 1)).toBe('G♭ major');
    expect(tonic('F', 1 + 14)).toBe('A♭ major');
    expect(tonic('F', 1 + 9)).toBe('E♭ major');
    expect(tonic('D minor', 1)).toBe('E♭ minor');
    expect(tonic('Eb', -1)).toBe('D major');
  });

  it('counts as C major where no key is written', () => {
    expect(readingFor(null, 14)).toEqual({ fifths: 2, semitones: 14 });
    expect(readingFor(null, 6)).toEqual({ fifths: -6, semitones: 6 });
  });

  it('is an exact interval to a key with no more than six accidentals, the fewest there are, six being flats', () => {
    fc.assert(
      fc.property(key, semitones, (concert, distance) => {
        const reading = readingFor(concert, distance);
        expect(reading.semitones).toBe(distance);
        expect(mod12(reading.fifths * 7)).toBe(mod12(distance));
        const written = transposeKey(concert, reading);
        expect(written.fifths).toBe(concert.fifths + reading.fifths);
        if (mod12(distance) === 0) expect(reading.fifths).toBe(0);
        else {
          const others = [-24, -12, 12, 24].map((step) => written.fifths + step);
          expect(Math.abs(written.fifths)).toBeLessThanOrEqual(Math.min(...others.map(Math.abs)));
          expect(written.fifths).toBeGreaterThanOrEqual(-6);
          expect(written.fifths).toBeLessThan(6);
        }
      }),
    );
  });

  it('is undone by its inverse, note for note', () => {
    const notes = fc
      .tuple(fc.integer({ min: -12, max: 14 }), fc.integer({ min: 1, max: 7 }))
      .map(([fifths, octave]) => noteAt(fifths) + octave);
    fc.assert(
      fc.property(key, semitones, notes, (concert, distance, note) => {
        const reading = readingFor(concert, distance);
        const written = transposeNote(note, reading);
        expect(Note.get(written).height - Note.get(note).height).toBe(distance);
        expect(transposeNote(written, inverseReading(reading))).toBe(note);
        expect(transposeKey(transposeKey(concert, reading), inverseReading(reading))).toEqual(concert);
      }),
    );
  });

  it('must be a real interval', () => {
    expect(() => transposeNote('C4', { fifths: 1, semitones: 5 })).toThrow(
      'not a reading: 1 fifths, 5 semitones',
    );
  });
});

describe('a symbol as read', () => {
  const UP_A_TONE: Reading = { fifths: 2, semitones: 2 };
  it.each([
    ['Eb7', 'F7'],
    ['E♭-7/D♭', 'F-7/E♭'],
    ['Bmaj7', 'C#maj7'],
    ['B△7', 'C#△7'],
    ['A♭△7', 'B♭△7'],
    ['B♭7♭9', 'C7♭9'],
    ['B7♭9', 'C♯7♭9'],
    ['C7(b9 #11)', 'D7(b9 #11)'],
    ['C6/9', 'D6/9'],
    ['C6/9/E', 'D6/9/F#'],
    ['Co7', 'Do7'],
    ['/G', '/A'],
    ['/B♭', '/C'],
    ['/E', '/F#'],
    ['N.C.', 'N.C.'],
    ['Cfoo/E', 'Cfoo/E'],
    ['am7', 'am7'],
    ['%', '%'],
    ['', ''],
    ['/', '/'],
    ['D#7', 'E#7'],
    ['B#7', 'D7'],
    ['G#7/B#', 'Bb7/D'],
    ['E#m7b5', 'Gm7b5'],
  ])('%s up a whole tone is %s', (typed, expected) =>
    expect(transposeSymbol(typed, UP_A_TONE)).toBe(expected),
  );

  // Common practice, no source: white keys go by their own names, except where the key has the other one.
  it.each([
    ['Db', 1, 'B7#11', 'C7#11'],
    ['Db', 1, 'E°7', 'F°7'],
    ['Db', 15, 'B7#11', 'D7#11'],
    ['Eb', -1, 'F#7', 'F7'],
    ['F', 1, 'Bb7', 'Cb7'],
    ['F', 1, 'Eb7', 'E7'],
    ['C', 10, 'Gb7', 'E7'],
    ['C', 5, 'F#m7b5/C', 'Bm7b5/F'],
    ['D minor', 11, 'C#dim7', 'B#dim7'],
    ['A minor', 4, 'G#dim7', 'B#dim7'],
    ['A minor', 4, 'E7/G#', 'G#7/B#'],
    ['C', 2, 'B7/D#', 'C#7/E#'],
    ['C', 2, 'C/D#', 'D/F'],
    ['C', 2, '/D#', '/F'],
    ['C♯', 0, 'E♯m7', 'E♯m7'],
  ])('in %s up %i, %s is %s', (text, distance, typed, expected) =>
    expect(transposeSymbol(typed, readingFor(readKey(text), distance))).toBe(expected),
  );

  it('stands as typed in concert pitch and on instruments an octave away', () => {
    fc.assert(
      fc.property(symbolText, (typed) => {
        expect(transposeSymbol(typed, CONCERT)).toBe(typed);
        expect(transposeSymbol(typed, { fifths: 0, semitones: 12 })).toBe(typed);
      }),
    );
  });

  it('has the same chord on another root, without double accidentals; what is unknown stays', () => {
    fc.assert(
      fc.property(symbolText, key, semitones, (typed, concert, distance) => {
        const reading = readingFor(concert, distance);
        const moved = transposeSymbol(typed, reading);
        const before = readChordSymbol(typed);
        if (before === null) expect(moved).toBe(typed);
        else {
          const after = readChordSymbol(moved);
          if (after === null) throw new Error(`${typed} became unreadable: ${moved}`);
          expect(after.degrees).toEqual(before.degrees);
          expect(after.drawn).toEqual(before.drawn);
          expect(chordPitchClasses(after)).toEqual(
            chordPitchClasses(before).map((each) => mod12(each + distance)),
          );
          if (before.bass === undefined) expect(after.bass).toBeUndefined();
          else expect(pitchClassOf(after.bass ?? '')).toBe(mod12(pitchClassOf(before.bass) + distance));
          if (reading.fifths !== 0) expect([after.root, after.bass ?? 'C'].every(isSimple)).toBe(true);
        }
      }),
      { numRuns: 1000 },
    );
  });

  it('comes back to its pitch by the inverse reading', () => {
    fc.assert(
      fc.property(symbolText, key, semitones, (typed, concert, distance) => {
        const before = readChordSymbol(typed);
        fc.pre(before !== null);
        const reading = readingFor(concert, distance);
        const back = readChordSymbol(
          transposeSymbol(transposeSymbol(typed, reading), inverseReading(reading)),
        );
        expect(back?.degrees).toEqual(before.degrees);
        expect(pitchClassOf(back?.root ?? '')).toBe(pitchClassOf(before.root));
      }),
    );
  });

  it('has tones that move as the symbol does: transposing and spelling commute', () => {
    fc.assert(
      fc.property(symbolText, key, semitones, (typed, concert, distance) => {
        const before = readChordSymbol(typed);
        fc.pre(before !== null);
        // By the interval alone: a key may have the root by another name.
        const { fifths, semitones: moved } = readingFor(concert, distance);
        const reading = { fifths, semitones: moved };
        const exact = transposeNote(before.root, reading);
        fc.pre(isSimple(exact));
        const after = readChordSymbol(
          transposeSymbol(before.bass === undefined ? typed : before.root, reading),
        );
        if (after === null || before.bass !== undefined) return;
        expect(chordTones(after)).toEqual(chordTones(before).map((note) => transposeNote(note, reading)));
      }),
      { numRuns: 500 },
    );
  });
});

describe('chord tones', () => {
  it.each([
    ['Bb7', 'Bb D F Ab'],
    ['Cbdim7', 'Cb Ebb Gbb Bbbb'],
    ['F#maj7', 'F# A# C# E#'],
    ['G#+', 'G# B# D##'],
    ['Dm11/G', 'D F A C E G'],
  ])('%s: %s', (typed, expected) => {
    const symbol = readChordSymbol(typed);
    expect(symbol === null ? null : chordTones(symbol).join(' ')).toBe(expected);
  });

  it('say what was expected of a text that is no degree', () => {
    expect(() => degreeFifths('x')).toThrow('not a degree: "x"');
  });
});

describe('the instruments', () => {
  it('have ids of their own, found again', () => {
    for (const instrument of INSTRUMENTS) expect(instrumentById(instrument.id)).toBe(instrument);
    expect(instrumentById('kazoo in J')).toBeUndefined();
  });

  it('sound the note of their transposition where they read C', () => {
    for (const { semitonesUp, transposition } of INSTRUMENTS) {
      const sounding = fifthsOf(transposition.replace('♭', 'b'));
      expect(pitchClassOf(noteAt(sounding))).toBe(mod12(0 - semitonesUp));
    }
  });

  it('offer every kind of part that a small band has', () => {
    const parts = new Set(INSTRUMENTS.map(({ part }) => part));
    expect([...parts].sort()).toEqual(['bass', 'drums', 'guitar', 'horn', 'keys', 'other', 'voice']);
  });
});
