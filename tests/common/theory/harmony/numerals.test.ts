import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chordTones } from '../../../../common/theory/chord-tones.ts';
import { numberedChord, printNumbered } from '../../../../common/theory/harmony/number-view.ts';
import { printNumeral, readNumeral } from '../../../../common/theory/harmony/numeral.ts';
import { numeralChord } from '../../../../common/theory/harmony/numeral-chord.ts';
import { readingFor } from '../../../../common/theory/transpose.ts';
import { analysed, chord, first, keyOf, numerals, PROGRESSIONS } from './progressions.ts';

const numeralOf = (text: string) => {
  const numeral = readNumeral(text);
  if (numeral === null) throw new Error(`not a numeral: ${text}`);
  return numeral;
};

describe('how a numeral is written (common practice, no source)', () => {
  it.each([
    ['C', 'Cmaj7 Dm7 Em7 Fmaj7 G7 Am7 Bm7b5', 'I△7 ii7 iii7 IV△7 V7 vi7 viiø7'],
    ['C', 'C Dm Em F G Am Bdim', 'I ii iii IV V vi vii°'],
    ['C', 'C6 Fm6 G7sus Caug Bdim7', 'I6 iv6 V7sus I+ vii°7'],
  ])('[HARM-1] in %s the chords %s are %s', (key, text, expected) => {
    // One at a time: what follows would change what a chord does.
    expect(
      text
        .split(' ')
        .map((symbol) => numerals(key, symbol))
        .join(' '),
    ).toBe(expected);
  });

  it.each([
    ['A minor', 'Am7 Bm7b5 Cmaj7 Dm7 Em7 Fmaj7 G7', 'i7 iiø7 III△7 iv7 v7 VI△7 VII7'],
    ['A minor', 'G#dim7 F#m7b5 G#m7b5 Fm7 Gm7', 'vii°7 viø7 viiø7 ♭vi7 ♭vii7'],
    ['D dorian', 'Dm7 Em7 Fmaj7 G7 Am7 Bm7b5 Cmaj7', 'i7 ii7 ♭III△7 IV7 v7 viø7 ♭VII△7'],
    ['E phrygian', 'Em7 Fmaj7 Dm7', 'i7 ♭II△7 ♭vii7'],
    ['C', 'Eb Ab Bb Dbmaj7 F#m7b5 Gbmaj7', '♭III ♭VI ♭VII ♭II△7 ♯ivø7 ♭V△7'],
    ['G mixolydian', 'G7 F Dm7', 'I7 ♭VII v7'],
  ])('[HARM-2] in %s the chords %s are %s', (key, text, expected) => {
    expect(
      text
        .split(' ')
        .map((symbol) => numerals(key, symbol))
        .join(' '),
    ).toBe(expected);
  });

  it('[HARM-3] colours change nothing, a sixth is kept', () => {
    for (const symbol of ['G7', 'G9', 'G13', 'G7b9', 'G13b9', 'Galt', 'G7#5', 'G7#11']) {
      expect(numerals('C', `| ${symbol} | Cmaj7 |`)).toBe('V7 I△7');
    }
    expect(numerals('C', '| C6/9 | Cmaj9 | Dm11 | Dm9 |')).toBe('I6 I△7 ii7 ii7');
  });

  it('[HARM-4] a bass that walks under one chord makes no other chord', () => {
    expect(numerals('C', '| Am | Am/B | Am/C | D |')).toBe('vi vi/9 vi/♭3 II');
    expect(numerals('C', '| C | C/D | C/E | F |')).toBe('I I/9 I/3 IV');
    expect(numerals('C', '| F | F/G | F | C |')).toBe('IV V7sus IV I');
  });

  it('[HARM-4] the bass is a degree of the chord', () => {
    expect(numerals('F blues', 'F7/C')).toBe('I7/5');
    expect(numerals('C', '| C/E | F | A7/C# | Dm7 |')).toBe('I/3 IV V7/ii/3 ii7');
    expect(numerals('C', '| C/Bb | F/A |')).toBe('V7/IV/♭7 IV/3');
    for (const typed of ['F/G', 'Fmaj7/G', 'Dm7/G', 'G9sus', 'G13sus4']) {
      expect(numerals('C', `| ${typed} | C |`)).toBe('V7sus I');
    }
  });

  it('[HARM-5] the same chords in another key have the same numerals, jobs and keys away from home', () => {
    const progression = fc.constantFrom(...PROGRESSIONS);
    fc.assert(
      fc.property(progression, fc.integer({ min: -14, max: 14 }), ([key, text], semitones) => {
        const reading = readingFor(keyOf(key), semitones);
        const [here, there] = [analysed(key, text), analysed(key, text, reading)];
        const shape = (all: typeof here) =>
          all.map(({ numeral, also, job, isAway, leadsTo }) => ({ numeral, also, job, isAway, leadsTo }));
        expect(shape(there)).toEqual(shape(here));
      }),
      { numRuns: 150 },
    );
  });

  it('[HARM-5] roots spelled otherwise are the same chords', () => {
    expect(numerals('C', '| Dm7 | C#7 | Cmaj7 |')).toBe(numerals('C', '| Dm7 | Db7 | Cmaj7 |'));
    expect(first('Eb minor', '| E | Bb7 |')).toBe('♭II');
    expect(numerals('Gb', '| Abm7 | G7 | Gbmaj7 | Emaj7 |')).toBe('ii7 subV7 I△7 ♭VII△7');
  });

  it('[HARM-6] what is printed reads as the same numeral', () => {
    for (const [key, text] of PROGRESSIONS) {
      for (const { numeral, also } of analysed(key, text)) {
        expect(readNumeral(printNumeral(numeral))).toEqual(numeral);
        if (also) expect(readNumeral(printNumeral(also))).toEqual(also);
      }
    }
  });

  it.each([
    ['bVIImaj7', '♭VII△7'],
    ['viio7/V', 'vii°7/V'],
    ['iiø', 'iiø7'],
    ['VΔ', 'V△7'],
    ['I7/5', 'I7/5'],
    ['subV7/ii', 'subV7/ii'],
  ])('[HARM-6] %s is read as %s', (typed, printed) => {
    expect(printNumeral(numeralOf(typed))).toBe(printed);
  });

  it.each(['', 'VIII', 'C7', 'iV', 'V7/', 'V8', 'V/VIII', '7', 'IIII'])(
    '[HARM-6] %s is no numeral',
    (typed) => {
      expect(readNumeral(typed)).toBeNull();
    },
  );

  it.each([
    ['V7/ii', 'G', 'E G# B D'],
    ['subV7', 'C', 'Db F Ab Cb'],
    ['bVI', 'E', 'C E G'],
    ['VI', 'E minor', 'C E G'],
    ['vii°7', 'E minor', 'D# F# A C'],
    ['viø7', 'C minor', 'A C Eb G'],
    ['III+△7', 'C minor', 'Eb G B D'],
    ['#IV°7', 'Eb blues', 'A C Eb Gb'],
    ['V7sus', 'Bb', 'F Bb C Eb'],
    ['i6', 'F minor', 'F Ab C D'],
  ])('[HARM-6] %s in %s has the notes %s', (typed, key, notes) => {
    expect(chordTones(numeralChord(numeralOf(typed), keyOf(key))).join(' ')).toBe(notes);
  });

  it.each([
    ['F', 'Gm7', '2-⁷'],
    ['F', 'C7', '5⁷'],
    ['F', 'C/E', '5/7'],
    ['F', 'F/A', '1/3'],
    ['C minor', 'Abmaj7', '♭6△⁷'],
    ['C', 'F#m7b5', '♯4ø'],
    ['C', 'Gbmaj7', '♭5△⁷'],
    ['D', 'F#m', '3-'],
    ['Eb', 'Bb13sus', '5¹³sus'],
    ['Eb', 'E7', '♭2⁷'],
    ['Eb', 'B7', '♭6⁷'],
    ['Db', 'A/C#', '♭6/1'],
    ['C', 'E7/G#', '3⁷/♯5'],
    ['C', 'C#dim7', '♯1°⁷'],
    ['F#', 'D#m7', '6-⁷'],
  ])('[HARM-7] in %s, %s in numbers is %s', (key, symbol, expected) => {
    expect(printNumbered(numberedChord(chord(symbol), keyOf(key)))).toBe(expected);
  });
});
