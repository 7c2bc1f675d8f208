import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keyboardPath } from '../../../../common/shapes/keyboard/keyboard-path.ts';
import type { KeyboardVoicing, KeysStyle } from '../../../../common/shapes/keyboard/keyboard-voicing.ts';
import { keyboardVoicings } from '../../../../common/shapes/keyboard/keyboard-voicings.ts';
import { VOICING_COST, voicesMoved } from '../../../../common/shapes/keyboard/voicing-cost.ts';
import { SEMITONE_COST } from '../../../../common/shapes/path-cost.ts';
import { type ChordSymbol, readChordSymbol } from '../../../../common/theory/chord-symbol.ts';

const chord = (text: string): ChordSymbol => {
  const symbol = readChordSymbol(text);
  if (symbol === null) throw new Error(`"${text}" is not read`);
  return symbol;
};
const steps = (texts: string) => texts.split(' ').map((text) => ({ symbol: chord(text) }));
const names = (voicing: KeyboardVoicing | null): string =>
  voicing === null
    ? ''
    : voicing.keys.map(({ note, pitch }) => `${note}${Math.floor(pitch / 12) - 1}`).join(' ');

/** The cost of a path, move by move, written down anew. */
function costOf(path: readonly KeyboardVoicing[], closed: boolean): number {
  const around = closed && path.length > 0 ? [...path, path[0] as KeyboardVoicing] : path;
  const moves = around.slice(1).map((to, i) => VOICING_COST.move(around[i] as KeyboardVoicing, to));
  return [...path.map(VOICING_COST.own), ...moves].reduce((sum, cost) => sum + cost, 0);
}

/** Every path, tried one after the other. */
function bruteForce(lists: readonly (readonly KeyboardVoicing[])[], closed: boolean): number {
  const paths = lists.reduce<KeyboardVoicing[][]>(
    (all, list) => all.flatMap((path) => list.map((voicing) => [...path, voicing])),
    [[]],
  );
  return Math.min(...paths.map((path) => costOf(path, closed)));
}

const CHORDS = ['Dm7', 'G7', 'Cmaj7', 'F', 'Bm7b5', 'E7b9', 'Am6', 'C/E', 'Bdim7', 'Abmaj7', 'Db7', 'Gsus4'];
const STYLES: readonly KeysStyle[] = ['pairs', 'shells', 'rootless', 'twoHands'];

describe('what a move costs', () => {
  it('[KEYS-15] is the semitones of each voice, voices dividing or meeting where their number changes', () => {
    expect(voicesMoved([53, 57, 60, 64], [53, 57, 59, 64])).toBe(1);
    expect(voicesMoved([60], [58, 60, 65])).toBe(7);
    expect(voicesMoved([58, 60, 65], [60])).toBe(7);
    expect(voicesMoved([50, 60], [49, 59, 61])).toBe(3);
  });

  it('[KEYS-15] counts the top voice once more, and a shared note that moves', () => {
    const voicing = (...pitches: number[]): KeyboardVoicing => ({
      style: 'rootless',
      form: '',
      keys: pitches.map((pitch) => ({ pitch, hand: 'left', degree: '1', note: 'C' })),
    });
    expect(VOICING_COST.move(voicing(48, 55), voicing(48, 57))).toBe((2 + 2) * SEMITONE_COST);
    expect(VOICING_COST.move(voicing(48, 55), voicing(52, 60))).toBe((4 + 5 + 5 + 1) * SEMITONE_COST);
    expect(VOICING_COST.own(voicing(53, 63))).toBe(0);
    expect(VOICING_COST.own(voicing(61, 71))).toBe(0.5 * SEMITONE_COST);
  });

  it('[KEYS-15] is the same on the way back, and nothing where nothing moves', () => {
    const pitches = fc.uniqueArray(fc.integer({ min: 36, max: 84 }), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(pitches, pitches, (one, other) => {
        const [from, to] = [one, other].map((all) => all.toSorted((a, b) => a - b)) as [number[], number[]];
        expect(voicesMoved(from, to)).toBe(voicesMoved(to, from));
        expect(voicesMoved(from, from)).toBe(0);
      }),
    );
  });
});

describe('the way through a form', () => {
  // Common practice, no source: in ii–V–I the forms alternate and each voice stays or falls a step.
  it('[KEYS-15] alternates the rootless forms in ii–V–I', () => {
    const path = keyboardPath(steps('Dm7 G7 Cmaj7'), 'rootless', { pins: new Map([[0, 1]]) });
    expect(path.map((voicing) => voicing?.form)).toEqual(['b3-5-b7-9', 'b7-9-3-13', '3-5-7-9']);
    expect(path.map(names)).toEqual(['F3 A3 C4 E4', 'F3 A3 B3 E4', 'E3 G3 B3 D4']);
  });

  it('[KEYS-16] costs as little as the best of all paths, open and round', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(...CHORDS), { minLength: 1, maxLength: 4 }),
        fc.constantFrom(...STYLES),
        fc.boolean(),
        (texts, style, closed) => {
          const symbols = texts.map(chord);
          // A chord that is repeated counts once, over the seam as well.
          const changes = (_: unknown, i: number): boolean =>
            texts[i] !== (i > 0 ? texts[i - 1] : closed && new Set(texts).size > 1 ? texts.at(-1) : '');
          const lists = symbols.filter(changes).map((symbol) => keyboardVoicings(symbol, style));
          if (lists.reduce((count, list) => count * list.length, 1) > 20_000) return;
          const path = keyboardPath(
            symbols.map((symbol) => ({ symbol })),
            style,
            { closed },
          );
          expect(path.every((voicing) => voicing !== null)).toBe(true);
          path.forEach((voicing, i) => {
            if (texts[i] === texts[i - 1]) expect(voicing).toBe(path[i - 1]);
          });
          const found = path.filter((voicing) => voicing !== null).filter(changes);
          expect(costOf(found, closed)).toBeCloseTo(bruteForce(lists, closed), 9);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('[KEYS-16] keeps what is pinned and finds its way around it', () => {
    const symbols = steps('Dm7 G7 C6');
    for (const [index, pinned] of keyboardVoicings(chord('G7'), 'twoHands').entries()) {
      const path = keyboardPath(symbols, 'twoHands', { pins: new Map([[1, index]]) });
      expect(path[1]).toEqual(pinned);
      const lists = [chord('Dm7'), chord('C6')].map((symbol) => keyboardVoicings(symbol, 'twoHands'));
      const best = bruteForce([lists[0] ?? [], [pinned], lists[1] ?? []], false);
      expect(
        costOf(
          path.filter((voicing) => voicing !== null),
          false,
        ),
      ).toBeCloseTo(best, 9);
    }
  });

  it('[KEYS-16] passes over bars without a chord', () => {
    const [one, other] = steps('Dm7 G7');
    const without = keyboardPath(steps('Dm7 G7'), 'rootless');
    const path = keyboardPath(
      [{ symbol: null }, one ?? { symbol: null }, { symbol: null }, other ?? { symbol: null }],
      'rootless',
    );
    expect(path).toEqual([null, without[0], null, without[1]]);
    expect(keyboardPath([{ symbol: null }], 'shells')).toEqual([null]);
    expect(() => keyboardPath([{ symbol: null }], 'shells', { pins: new Map([[0, 0]]) })).toThrow(
      'step 0 has no chord',
    );
  });

  it('[KEYS-16] stays where a chord stays', () => {
    const path = keyboardPath(steps('F7 F7 F7 Bb7 Bb7 F7'), 'rootless');
    expect(path[0]).toEqual(path[2]);
    expect(path[3]).toEqual(path[4]);
  });
});
