import fc from 'fast-check';
import { Note } from 'tonal';
import { describe, expect, it } from 'vitest';
import { accidentalsAt, fifthsOf, noteAt, pitchClassAt, pitchClassOf } from '../../../common/theory/pitch.ts';
import { plainSigns, printNote } from '../../../common/theory/plain-signs.ts';

const place = fc.integer({ min: -40, max: 40 });

describe('the line of fifths', () => {
  it('has its places where they belong', () => {
    expect(['Ebb', 'Bb', 'F', 'C', 'G', 'F#', 'C#', 'F##'].map(fifthsOf)).toEqual([
      -10, -2, -1, 0, 1, 6, 7, 13,
    ]);
    expect([-8, -3, 0, 6, 13].map(noteAt)).toEqual(['Fb', 'Eb', 'C', 'F#', 'F##']);
  });

  it('gives every place one spelling, and tonal agrees', () => {
    fc.assert(
      fc.property(place, (at) => {
        expect(fifthsOf(noteAt(at))).toBe(at);
        expect(Note.get(noteAt(at)).chroma).toBe(pitchClassAt(at));
        expect(Math.abs(Note.get(noteAt(at)).alt)).toBe(accidentalsAt(at));
      }),
    );
  });

  it('puts enharmonic spellings twelve places apart', () => {
    fc.assert(
      fc.property(place, (at) => {
        expect(pitchClassOf(noteAt(at + 12))).toBe(pitchClassOf(noteAt(at)));
      }),
    );
  });

  it('says what it expected of a text that is no note', () => {
    expect(() => fifthsOf('H')).toThrow('not a note: "H", expected a name such as Bb or F#4');
    expect(() => noteAt(0.5)).toThrow('not a place on the line of fifths: 0.5');
  });
});

describe('plain signs', () => {
  it('replaces the signs of notation and their look-alikes', () => {
    expect(plainSigns('E♭△7 F♯– B𝄫∆ C𝄪Ø D∅ Gº A˚\u00a0x')).toBe('EbΔ7 F#- BbbΔ C##ø Dø G° A° x');
  });

  it('keeps every place, so that a place in the plain text is one in the typed text', () => {
    const sign = fc.constantFrom(...'ABb#♭♯𝄫𝄪Δ∆△øØ∅°º˚-–—−7(), \u00a0\u2003');
    const text = fc.oneof(
      fc.string({ unit: 'binary' }),
      fc.array(sign).map((signs) => signs.join('')),
    );
    fc.assert(
      fc.property(text, (typed) => {
        expect(plainSigns(typed)).toHaveLength(typed.length);
      }),
    );
  });

  it('prints notes with the signs people read', () => {
    expect(['Bb', 'F#', 'Bbb', 'C##', 'E'].map(printNote)).toEqual(['B♭', 'F♯', 'B𝄫', 'C𝄪', 'E']);
  });
});
