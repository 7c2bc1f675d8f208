import fc from 'fast-check';
import { Note } from 'tonal';
import { describe, expect, it } from 'vitest';
import { bassNotes } from '../../../../common/theory/harmony/bass-notes.ts';
import { type GuideTone, guideTones, MIDDLE } from '../../../../common/theory/harmony/guide-tones.ts';
import { pitchClassOf } from '../../../../common/theory/pitch.ts';
import { chord, keyOf, PROGRESSIONS, timed } from './progressions.ts';

const chords = (text: string) => text.split(' ').map(chord);
const printed = (line: readonly GuideTone[]): string =>
  line.map(({ note, resolves }) => note + (resolves ? '↘' : '')).join(' ');
const lines = (text: string): string[] => {
  const { upper, lower } = guideTones(chords(text));
  return [printed(upper), printed(lower)];
};
const midi = ({ note }: GuideTone): number => Note.midi(note) ?? Number.NaN;
const movement = (line: readonly GuideTone[]): number =>
  line.reduce(
    (sum, tone, i) => sum + (i === 0 ? 0 : Math.abs(midi(tone) - midi(line[i - 1] as GuideTone))),
    0,
  );

/** The least movement of all pairs of lines, tried one by one. */
const leastMovement = (text: string): number => {
  const pairs = chords(text).map((symbol) => {
    const { upper, lower } = guideTones([symbol]);
    const classes = [upper[0], lower[0]].map((tone) => pitchClassOf((tone as GuideTone).note));
    const pitches = Array.from({ length: MIDDLE.high - MIDDLE.low + 1 }, (_, i) => MIDDLE.low + i);
    return pitches.flatMap((low) =>
      pitches
        .filter((high) => high > low && high - low <= 12)
        .filter((high) => [low, high].every((p) => classes.includes(p % 12)) && low % 12 !== high % 12)
        .map((high) => [low, high] as const),
    );
  });
  let best = Number.POSITIVE_INFINITY;
  const walk = (at: number, last: readonly [number, number] | null, sum: number): void => {
    if (sum >= best) return;
    if (at === pairs.length) {
      best = sum;
      return;
    }
    for (const pair of pairs[at] ?? []) {
      const moved = last === null ? 0 : Math.abs(pair[0] - last[0]) + Math.abs(pair[1] - last[1]);
      walk(at + 1, pair, sum + moved);
    }
  };
  walk(0, null, 0);
  return best;
};

describe('guide tones (common practice, no source)', () => {
  it('[HARM-24] third and seventh change places through a ii–V–I', () => {
    expect(lines('Dm7 G7 Cmaj7')).toEqual(['F4 F4↘ E4', 'C4↘ B3 B3']);
  });

  it('[HARM-24] no other two lines move less', () => {
    const symbol = fc.constantFrom(...'C7 Ebmaj7 F#m7 Abm6 Bdim7 D7sus Gm7b5 Am E Db7alt Bb6'.split(' '));
    fc.assert(
      fc.property(fc.array(symbol, { minLength: 1, maxLength: 5 }), (all) => {
        const { upper, lower } = guideTones(all.map(chord));
        expect(movement(upper) + movement(lower)).toBe(leastMovement(all.join(' ')));
      }),
      { numRuns: 60 },
    );
  });

  it('[HARM-24] stays in its range, the lower line below, each chord with both', () => {
    for (const [key, text] of PROGRESSIONS) {
      const { upper, lower } = guideTones(timed(key, text).map(({ symbol }) => symbol));
      upper.forEach((tone, i) => {
        const under = lower[i] as GuideTone;
        expect(midi(under)).toBeLessThan(midi(tone));
        expect(midi(under)).toBeGreaterThanOrEqual(MIDDLE.low);
        expect(midi(tone)).toBeLessThanOrEqual(MIDDLE.high);
      });
    }
    expect(guideTones([])).toEqual({ upper: [], lower: [] });
    expect(() => guideTones([], { low: 60, high: 66 })).toThrow('60–66');
  });

  it('[HARM-25] from I7 to IV7 the flat seventh falls a semitone to the third, in every key', () => {
    for (const [one, four] of ['Eb7 Ab7', 'F7 Bb7', 'C7 F7', 'A7 D7', 'B7 E7', 'Gb7 Cb7'].map((text) =>
      text.split(' '),
    )) {
      const { upper, lower } = guideTones([chord(one ?? ''), chord(four ?? '')]);
      const marked = [upper, lower].filter((line) => line[0]?.resolves);
      expect(marked).toHaveLength(1);
      expect(marked[0]?.map(({ degree }) => degree)).toEqual(['b7', '3']);
    }
    expect(lines('Eb7 Ab7')).toEqual(['G4 Gb4', 'Db4↘ C4']);
  });

  it('[HARM-25] a seventh that stays or falls a tone is not marked', () => {
    expect(lines('G7 Cm7').join(' ')).not.toContain('↘');
    expect(lines('C7 Am7').join(' ')).not.toContain('↘');
  });

  it('[HARM-26] what stands for a third or a seventh', () => {
    const degrees = (symbol: string): string[] => {
      const { upper, lower } = guideTones([chord(symbol)]);
      return [...upper, ...lower].map(({ degree }) => degree).sort();
    };
    expect(degrees('G7sus')).toEqual(['4', 'b7']);
    expect(degrees('C6')).toEqual(['3', '6']);
    expect(degrees('Am')).toEqual(['1', 'b3']);
    expect(degrees('Bdim7')).toEqual(['b3', 'bb7']);
    expect(degrees('D5')).toEqual(['1', '5']);
  });

  it('[HARM-26] is spelled as in the chord, in a diminished seventh chord without double accidentals', () => {
    const notes = (symbol: string): string[] => {
      const { upper, lower } = guideTones([chord(symbol)]);
      return [...upper, ...lower].map(({ note }) => note.replace(/\d/, '')).sort();
    };
    expect(notes('D#7')).toEqual(['C#', 'F##']);
    expect(notes('Abdim7')).toEqual(['Cb', 'F']);
    expect(bassNotes(chord('Abdim7'), null, keyOf('F')).fifth).toBe('D');
  });

  it('[HARM-24] notes have the octave of their letter', () => {
    const { upper, lower } = guideTones([chord('Ab7'), chord('Dbm7'), chord('Cb')]);
    for (const tone of [...upper, ...lower]) {
      expect(midi(tone)).toBeGreaterThanOrEqual(MIDDLE.low);
      expect(midi(tone)).toBeLessThanOrEqual(MIDDLE.high);
    }
  });
});

describe('what the bass has (common practice, no source)', () => {
  const ways = (symbol: string, next: string, key = 'C') =>
    bassNotes(chord(symbol), chord(next), keyOf(key)).approaches.map(({ note, from }) => `${note} ${from}`);

  it('[HARM-27] root and fifth, the bass after the slash, the chord’s own fifth', () => {
    expect(bassNotes(chord('Eb7'), null, keyOf('Eb'))).toEqual({ root: 'Eb', fifth: 'Bb', approaches: [] });
    expect(bassNotes(chord('Am7b5'), null, keyOf('G minor'))).toMatchObject({ root: 'A', fifth: 'Eb' });
    expect(bassNotes(chord('F7/C'), null, keyOf('F'))).toMatchObject({ root: 'C', fifth: 'F' });
    expect(bassNotes(chord('C/E'), null, keyOf('C'))).toMatchObject({ root: 'E', fifth: 'G' });
  });

  it('[HARM-27] ways to the next bass note, the steps of the key among them', () => {
    expect(ways('Cmaj7', 'Fmaj7')).toEqual(['E a semitone below', 'Gb a semitone above', 'G a step above']);
    expect(ways('Am7', 'Dm7')).toEqual([
      'C# a semitone below',
      'Eb a semitone above',
      'C a step below',
      'E a step above',
    ]);
    expect(ways('Cmaj7', 'G7/B')).toEqual(['A# a semitone below', 'A a step below', 'F# a fifth above']);
    expect(ways('C7', 'C9')).toEqual([]);
  });
});
