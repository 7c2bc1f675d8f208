import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readChordSymbol } from '../../../../common/theory/chord-symbol.ts';
import { analyse, type TimedChord } from '../../../../common/theory/harmony/analyse.ts';
import { bassNotes } from '../../../../common/theory/harmony/bass-notes.ts';
import { bracketsOf } from '../../../../common/theory/harmony/bracket.ts';
import { coreOf } from '../../../../common/theory/harmony/chord-core.ts';
import { findKey } from '../../../../common/theory/harmony/find-key.ts';
import { guideTones } from '../../../../common/theory/harmony/guide-tones.ts';
import { numberedChord, printNumbered } from '../../../../common/theory/harmony/number-view.ts';
import { printNumeral, readNumeral } from '../../../../common/theory/harmony/numeral.ts';
import { numeralChord } from '../../../../common/theory/harmony/numeral-chord.ts';
import { scaleChoices } from '../../../../common/theory/harmony/scale-choice.ts';
import { type Mode, makeKey, readKey } from '../../../../common/theory/key.ts';
import { noteAt, pitchClassOf } from '../../../../common/theory/pitch.ts';
import { symbolText } from '../symbol-arbitrary.ts';

const MODES: readonly Mode[] = [
  'major',
  'minor',
  'blues',
  'minor blues',
  'ionian',
  'dorian',
  'phrygian',
  'lydian',
  'mixolydian',
  'aeolian',
  'locrian',
];
const key = fc
  .tuple(fc.integer({ min: -8, max: 8 }), fc.constantFrom(...MODES))
  .map(([fifths, mode]) => makeKey(noteAt(fifths), mode));
const chords = fc.tuple(key, fc.array(symbolText, { maxLength: 12 })).map(([written, texts]) =>
  texts.flatMap((text): TimedChord[] => {
    const symbol = readChordSymbol(text);
    return symbol ? [{ symbol, key: written, bars: 1 }] : [];
  }),
);

describe('whatever chords come, in whatever key', () => {
  it('[HARM-22] each has a numeral that can be read, a reason and a place to lead to', () => {
    fc.assert(
      fc.property(chords, (all) => {
        const analyses = analyse(all, all.slice(0, 3));
        expect(analyses).toHaveLength(all.length);
        analyses.forEach(({ numeral, also, reason, leadsTo }, i) => {
          expect(readNumeral(printNumeral(numeral))).toEqual(numeral);
          if (also) expect(readNumeral(printNumeral(also))).toEqual(also);
          expect(reason).not.toMatch(/undefined|NaN|^$/);
          if (leadsTo) expect(leadsTo.index).toBeGreaterThan(i);
        });
        for (const { from, to } of bracketsOf(all, analyses)) expect(to).toBeGreaterThan(from);
      }),
      { numRuns: 300 },
    );
  });

  it('[HARM-6] the numeral, read in its key, has the root of the chord', () => {
    fc.assert(
      fc.property(chords, (all) => {
        analyse(all, all.slice(0, 3)).forEach(({ numeral, also, key: heard }, i) => {
          const symbol = all[i]?.symbol;
          if (symbol === undefined) throw new Error(`no chord ${i}`);
          for (const each of also ? [numeral, also] : [numeral]) {
            // A chord over a bass may work on either.
            const { root, above } = coreOf(symbol);
            const named = pitchClassOf(numeralChord(each, heard).root);
            expect([root, above?.root ?? root], printNumeral(each)).toContain(named);
          }
        });
      }),
      { numRuns: 300 },
    );
  });

  it('[HARM-32] a chord that is repeated does what it did, for the same reason', () => {
    const times = fc.integer({ min: 1, max: 4 });
    fc.assert(
      fc.property(chords, fc.array(times, { minLength: 12, maxLength: 12 }), (all, often) => {
        const repeated = all.flatMap((chord, i) => Array.from({ length: often[i] ?? 1 }, () => chord));
        const analyses = analyse(repeated, all.slice(0, 3));
        const { upper, lower } = guideTones(repeated.map(({ symbol }) => symbol));
        for (let i = 1; i < repeated.length; i++) {
          if (repeated[i] !== repeated[i - 1]) continue;
          expect(analyses[i]).toEqual(analyses[i - 1]);
          expect([upper[i]?.note, lower[i]?.note]).toEqual([upper[i - 1]?.note, lower[i - 1]?.note]);
        }
      }),
      { numRuns: 1000 },
    );
  });

  it('[HARM-32] no other key begins within a chord (found by trying many)', () => {
    const of = (key: string, texts: string): TimedChord[] =>
      texts.split(' ').flatMap((text): TimedChord[] => {
        const [symbol, written] = [readChordSymbol(text), readKey(key)];
        return symbol && written ? [{ symbol, key: written, bars: 1 }] : [];
      });
    for (const [written, texts] of [
      ['C major', 'D+ D+ D+ D+ Am6 Am6 Am6 Am6 Bmaj7 Bmaj7 Bmaj7 Bmaj7 Db Gmaj7 Bm6 Bm6 Bb+ Gm7b5'],
      ['C blues', 'Am7 A7 A7 A7 A7 F#7 F#+ Cdim7 Gm6 Gm6 Gm6 Gm6 Ab6 Dbm6 Dbm6 Dbm6'],
    ] as const) {
      const all = of(written, texts);
      const analyses = analyse(all);
      all.forEach(({ symbol }, i) => {
        if (symbol === all[i - 1]?.symbol) expect(analyses[i]).toEqual(analyses[i - 1]);
      });
    }
  });

  it('[HARM-29] players get what they need, spelled with one accidental at most in scales', () => {
    fc.assert(
      fc.property(chords, (all) => {
        const analyses = analyse(all);
        const { upper, lower } = guideTones(all.map(({ symbol }) => symbol));
        expect([upper.length, lower.length]).toEqual([all.length, all.length]);
        all.forEach(({ symbol, key: written }, i) => {
          const analysis = analyses[i];
          if (!analysis) throw new Error(`no analysis of ${symbol.typed}`);
          for (const { notes, avoid } of scaleChoices(symbol, analysis)) {
            expect(new Set(notes.map(pitchClassOf)).size).toBe(notes.length);
            expect(notes).toEqual(expect.arrayContaining([...avoid]));
          }
          const bass = bassNotes(symbol, all[i + 1]?.symbol ?? null, written);
          for (const { note } of bass.approaches) expect(note.length).toBeLessThanOrEqual(2);
          expect(printNumbered(numberedChord(symbol, written))).toMatch(/^[♭♯𝄫𝄪]*[1-7]/u);
        });
        if (all.length > 0) expect(findKey(all)).not.toBeNull();
      }),
      { numRuns: 200 },
    );
  });
});
