import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fingeringOf } from '../../../../common/shapes/fretboard/fingering.ts';
import {
  FRET_INSTRUMENTS,
  type FretInstrument,
  fretInstrumentById,
  GUITAR,
} from '../../../../common/shapes/fretboard/fret-instrument.ts';
import type { FretShape, ShapeKind } from '../../../../common/shapes/fretboard/fret-shape.ts';
import { fretMm, fretsMm } from '../../../../common/shapes/fretboard/hand.ts';
import { type ShapeRules, shapesOf } from '../../../../common/shapes/fretboard/shapes-of.ts';
import { readChordSymbol } from '../../../../common/theory/chord-symbol.ts';
import { pitchClassOf } from '../../../../common/theory/pitch.ts';

const instrument = (id: string): FretInstrument => {
  const found = fretInstrumentById(id);
  if (found === undefined) throw new Error(`no instrument ${id}`);
  return found;
};

const shapes = (symbol: string, rules: ShapeRules = {}, on = GUITAR): readonly FretShape[] => {
  const chord = readChordSymbol(symbol);
  if (chord === null) throw new Error(`no chord ${symbol}`);
  return shapesOf(chord, on, rules);
};

const written = ({ frets }: Pick<FretShape, 'frets'>): string => frets.map((fret) => fret ?? 'x').join(' ');
const ofKind = (symbol: string, kind: ShapeKind, on = GUITAR): string[] =>
  shapes(symbol, { kinds: [kind] }, on).map(written);

const roots = fc.constantFrom('C', 'Db', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B');
const qualities = fc.constantFrom(
  '',
  'm',
  '7',
  'maj7',
  'm7',
  'm7b5',
  'dim7',
  '7b9',
  '9',
  '6',
  'sus4',
  '7sus4',
  '5',
  '+',
);
const basses = fc.constantFrom('', '', '', '/E', '/G', '/Bb');
const symbols = fc.tuple(roots, qualities, basses).map((parts) => parts.join(''));
const instruments = fc.constantFrom(...FRET_INSTRUMENTS.filter(({ openMidi }) => openMidi.length <= 6));

/** Checks every shape of chords at random; the word is what is wrong with it, null where nothing is. */
const holds = (wrong: (shape: FretShape, on: FretInstrument, symbol: string) => string | null): void =>
  fc.assert(
    fc.property(symbols, instruments, fc.boolean(), (symbol, on, bassPlays) => {
      for (const shape of shapes(symbol, { bassPlays }, on)) {
        const word = wrong(shape, on, symbol);
        if (word !== null) throw new Error(`${symbol} on ${on.id}, ${written(shape)}: ${word}`);
      }
    }),
    { numRuns: 40 },
  );

const pressed = ({ frets }: FretShape) => frets.flatMap((fret, string) => (fret ? [{ fret, string }] : []));

describe('what sounds', () => {
  it('[SHAPE-1] has the bass after the slash lowest; a foreign one sounds only where it is', () => {
    for (const shape of shapes('F/G')) {
      if (shape.degrees.includes('2')) expect((shape.midi[0] ?? 0) % 12).toBe(pitchClassOf('G'));
    }
    for (const { bassDegree } of shapes('C/E', { bassPlays: false })) expect(bassDegree).toBe('3');
    for (const { bassDegree } of shapes('C/E', { kinds: ['full'] })) expect(bassDegree).toBe('3');
  });

  it('[SHAPE-2] leaves out the perfect fifth first, never the altered one, and never the highest figure', () => {
    const hasAll = (symbol: string, degrees: readonly string[]) =>
      shapes(symbol, { kinds: ['full', 'drop 2', 'drop 3', 'rootless', 'three-note'] }).every((shape) =>
        degrees.every((degree) => shape.degrees.includes(degree)),
      );
    expect(hasAll('C13', ['3', 'b7', '13'])).toBe(true);
    expect(hasAll('C9', ['3', 'b7', '9'])).toBe(true);
    expect(hasAll('Cm7b5', ['b3', 'b5', 'b7'])).toBe(true);
    expect(hasAll('C7sus4', ['4', 'b7'])).toBe(true);
    expect(hasAll('C6/9', ['3', '6', '9'])).toBe(true);
    expect(shapes('C9').some(({ degrees }) => !degrees.includes('5'))).toBe(true);
    expect(shapes('C13').some(({ degrees }) => !degrees.includes('9'))).toBe(true);
    for (const { degrees } of shapes('C7alt', { kinds: ['full'] })) {
      expect(degrees.includes('b5') || degrees.includes('#5')).toBe(true);
      expect(degrees.includes('b9') || degrees.includes('#9')).toBe(true);
    }
  });

  it('[SHAPE-3] has no pitch twice, but where one string is open or the tuning is re-entrant', () => {
    holds(({ frets, midi }, { id, openMidi }) => {
      if (id === 'ukulele') return null;
      const twice = midi.filter((pitch, i) => pitch === midi[i - 1]);
      return twice.every((pitch) => openMidi.some((open, string) => open === pitch && frets[string] === 0))
        ? null
        : 'a pitch twice';
    });
    expect(shapes('A', {}, instrument('ukulele')).map(written)).toContain('2 4 5 4');
  });

  it('[SHAPE-4] stands on its root without a bass player, on any tone with one', () => {
    for (const { bassDegree } of shapes('Dm7', { bassPlays: false })) expect(bassDegree).toBe('1');
    expect(new Set(shapes('Dm7').map(({ bassDegree }) => bassDegree))).toEqual(
      new Set(['1', 'b3', '5', 'b7']),
    );
    expect(shapes('Dm7', { bassPlays: false }).some(({ kinds }) => kinds.includes('rootless'))).toBe(false);
  });

  it('keeps to the register that is asked for', () => {
    for (const { midi } of shapes('G7', { lowestMidi: 48, highestMidi: 67 })) {
      expect(midi[0]).toBeGreaterThanOrEqual(48);
      expect(midi.at(-1)).toBeLessThanOrEqual(67);
    }
    expect(shapes('G7', { lowestMidi: 48, highestMidi: 67 }).length).toBeGreaterThan(5);
  });
});

describe('what a hand can do', () => {
  it('[SHAPE-5] spans no more than its fingers reach, more frets the higher it is', () => {
    holds(({ fingers, frets }, { scaleLengthMm }) => {
      const reach = [0, 70, 100, 105];
      const at = frets.flatMap((fret, string) => (fret ? [{ fret, finger: fingers[string] ?? 0 }] : []));
      const tooFar = at.some((a) =>
        at.some((b) => {
          const mm = fretMm(b.fret, scaleLengthMm) - fretMm(a.fret, scaleLengthMm);
          return mm > (reach[b.finger - a.finger] ?? 0) && b.fret > a.fret;
        }),
      );
      return tooFar || Math.max(...at.map(({ fret }) => fret)) - Math.min(...at.map(({ fret }) => fret)) > 4
        ? 'out of reach'
        : null;
    });
    const widest = (on: FretInstrument, from: number): number => {
      const spans = ['C7', 'Ebmaj7', 'Gm9', 'F#7b9', 'Bbm7', 'A6/9'].flatMap((symbol) =>
        shapes(symbol, {}, on).map((shape) => pressed(shape).map(({ fret }) => fret)),
      );
      return Math.max(
        ...spans.filter((frets) => Math.min(...frets) === from).map((frets) => Math.max(...frets) - from),
      );
    };
    expect(widest(GUITAR, 1)).toBe(3);
    expect(widest(GUITAR, 5)).toBe(4);
    expect(widest(instrument('bass'), 1)).toBe(2);
  });

  it('[SHAPE-6] gives each pressed string a finger: four at most, in order up the neck and across it', () => {
    holds((shape) => {
      const at = pressed(shape).map(({ fret, string }) => ({
        fret,
        string,
        finger: shape.fingers[string] ?? 0,
      }));
      if (at.some(({ finger }) => finger < 1 || finger > 4)) return 'a string without a finger';
      if (shape.frets.some((fret, string) => !fret && shape.fingers[string] !== null))
        return 'a finger on nothing';
      for (const a of at) {
        for (const b of at) {
          if (a.fret < b.fret && a.finger >= b.finger) return 'fingers crossed along the neck';
          if (a.fret === b.fret && a.string < b.string && a.finger > b.finger)
            return 'fingers crossed on a fret';
        }
      }
      return null;
    });
  });

  // Fingerings as every method teaches them: common practice, no source.
  it.each([
    ['x 3 2 0 1 0', '- 3 2 - 1 -'],
    ['0 2 2 1 0 0', '- 2 3 1 - -'],
    ['x x 0 2 3 2', '- - - 1 3 2'],
    ['1 3 3 2 1 1', '1 3 4 2 1 1'],
    ['x 0 2 2 2 0', '- - 1 2 3 -'],
    ['3 x 3 4 x x', '1 - 2 3 - -'],
    ['5 7 5 6 5 5', '1 3 1 2 1 1'],
  ])('[SHAPE-6] fingers %s as it is taught', (frets, fingers) => {
    const placed = frets.split(' ').map((fret) => (fret === 'x' ? -1 : Number(fret)));
    const found = fingeringOf(placed, fretsMm(15, 650));
    expect(found?.fingers.map((finger) => finger ?? '-').join(' ')).toBe(fingers);
  });

  it('[SHAPE-7] lays a finger over strings of its fret only where none between is open or lower', () => {
    holds(({ frets, fingers, barres }) => {
      for (const { finger, fret, firstString, lastString } of barres) {
        const under = frets.slice(firstString, lastString + 1);
        if (under.some((one) => one !== null && one < fret))
          return 'a string under the barre is open or lower';
        if (finger !== 1 && under.length > 4) return 'a barre too long';
        if (fingers.some((one, string) => one === finger && frets[string] !== fret))
          return 'one finger on two frets';
      }
      const used = new Set(
        fingers.flatMap((finger, string) => (finger === null ? [] : [`${finger} ${frets[string]}`])),
      );
      return used.size === new Set(fingers.filter((finger) => finger !== null)).size
        ? null
        : 'one finger twice';
    });
    expect(fingeringOf([1, 3, 0, 1, 3, 2], fretsMm(15, 650))).toBeNull();
  });

  it('[SHAPE-8] has one gap at most, of one or two strings, each beside a string that is pressed', () => {
    holds(({ frets }) => {
      const played = frets.flatMap((fret, string) => (fret === null ? [] : [string]));
      const inside = frets.flatMap((fret, string) =>
        fret === null && string > (played[0] ?? 0) && string < (played.at(-1) ?? 0) ? [string] : [],
      );
      if (inside.length > 2 || (inside.length === 2 && (inside[1] ?? 0) - (inside[0] ?? 0) !== 1))
        return 'too much silent';
      return inside.every((string) => frets[string - 1] || frets[string + 1]) ? null : 'nothing mutes it';
    });
    expect(shapes('G7').map(written)).toContain('3 x 3 4 3 x');
  });

  it('[SHAPE-9] lets open strings ring beside a high hand only where it does not stretch', () => {
    holds((shape, { scaleLengthMm }) => {
      const frets = pressed(shape).map(({ fret }) => fret);
      if (!shape.frets.includes(0) || frets.length === 0 || Math.min(...frets) <= 4) return null;
      return fretMm(Math.max(...frets), scaleLengthMm) - fretMm(Math.min(...frets), scaleLengthMm) <= 80
        ? null
        : 'stretched';
    });
  });
});

describe('kinds', () => {
  // The shells that every player learns, from the E and from the A string: common practice, no source.
  it.each([
    ['G7', '3 x 3 4 x x'],
    ['Gmaj7', '3 x 4 4 x x'],
    ['Gm7', '3 x 3 3 x x'],
    ['G6', '3 x 2 4 x x'],
    ['Gm6', '3 x 2 3 x x'],
    ['Gdim7', '3 x 2 3 x x'],
    ['G7sus4', '3 x 3 5 x x'],
    ['C7', 'x 3 2 3 x x'],
    ['Cmaj7', 'x 3 2 4 x x'],
    ['Cm7', 'x 3 1 3 x x'],
    ['C6', 'x 3 2 2 x x'],
    ['C9', 'x 3 2 3 x x'],
    ['Cm7b5', 'x 3 1 3 x x'],
  ])('[SHAPE-10] the shells of %s have %s among them', (symbol, frets) => {
    expect(ofKind(symbol, 'shell')).toContain(frets);
  });

  it('[SHAPE-10] shells are root, third and seventh with the root on the E or A string; a triad has none', () => {
    for (const shape of shapes('Bb13', { kinds: ['shell'] })) {
      expect(shape.degrees.filter((degree) => degree !== null).sort()).toEqual(['1', '3', 'b7']);
      expect(shape.degrees.indexOf('1')).toBeLessThanOrEqual(1);
      expect(shape.bassDegree).toBe('1');
    }
    expect(ofKind('C', 'shell')).toEqual([]);
    expect(ofKind('C7', 'shell', instrument('bass')).length).toBeGreaterThan(0);
  });

  // Drop 2 on the upper four strings and drop 3 from the sixth, in all inversions: common practice, no source.
  it.each<[ShapeKind, string, readonly string[]]>([
    ['drop 2', 'Cmaj7', ['x x 2 4 1 3', 'x x 5 5 5 7', 'x x 9 9 8 8', 'x x 10 12 12 12']],
    ['drop 2', 'Dm7', ['x 5 7 5 6 x', 'x 8 10 7 10 x', 'x 12 12 10 13 x']],
    ['drop 3', 'Cmaj7', ['8 x 9 9 8 x', '3 x 2 4 1 x', '7 x 5 5 5 x']],
    ['drop 3', 'G7', ['3 x 3 4 3 x', '10 x 9 10 8 x', 'x 10 x 10 12 10']],
  ])('[SHAPE-11] %s of %s', (kind, symbol, frets) => {
    expect(ofKind(symbol, kind)).toEqual(expect.arrayContaining([...frets]));
  });

  it('[SHAPE-11] each drop is a close chord whose lowest voice went down an octave', () => {
    const close = (midi: readonly number[]) => (midi.at(-1) ?? 0) - (midi[0] ?? 0) < 12;
    const dropped: Readonly<Record<string, readonly number[]>> = {
      'drop 2': [2],
      'drop 3': [1],
      'drop 2 and 4': [0, 2],
    };
    for (const symbol of ['Cmaj7', 'F#m7b5', 'Bb9', 'E7b9', 'Gsus4', 'A6']) {
      for (const shape of shapes(symbol)) {
        for (const [kind, from] of Object.entries(dropped)) {
          if (!shape.kinds.includes(kind as ShapeKind)) continue;
          const moved = from.length;
          const raised = [
            ...shape.midi.slice(0, moved).map((pitch) => pitch + 12),
            ...shape.midi.slice(moved),
          ].sort((a, b) => a - b);
          expect(close(raised)).toBe(true);
          const down = raised
            .map((pitch, i) => (from.includes(i) ? pitch - 12 : pitch))
            .sort((a, b) => a - b);
          expect(down).toEqual(shape.midi);
        }
      }
    }
    const inversions = shapes('Ebmaj7', { kinds: ['drop 2'] }).map(({ bassDegree }) => bassDegree);
    expect(new Set(inversions)).toEqual(new Set(['1', '3', '5', '7']));
  });

  it('[SHAPE-12] rootless shapes have no root and no tone twice; triads lie close on neighbouring strings', () => {
    for (const { degrees } of shapes('C9', { kinds: ['rootless'] })) {
      const sounding = degrees.filter((degree) => degree !== null);
      expect(sounding).not.toContain('1');
      expect(new Set(sounding).size).toBe(sounding.length);
    }
    // Root, first and second inversion on the upper three strings.
    expect(ofKind('C', 'triad')).toEqual(
      expect.arrayContaining(['x x x 0 1 0', 'x x x 5 5 3', 'x x x 9 8 8']),
    );
    expect(
      shapes('C7', { kinds: ['triad'] }).every(({ degrees }) =>
        ['3', '5', 'b7'].every((one) => degrees.includes(one)),
      ),
    ).toBe(true);
    expect(ofKind('C', 'spread triad')).toContain('x 3 5 x 5 x');
    expect(ofKind('C#maj7', 'three-note')).toContain('x x x 6 6 8');
  });

  it('[SHAPE-13] open chords, barre chords and full chords are what every player calls so', () => {
    expect(ofKind('C', 'open chord')).toContain('x 3 2 0 1 0');
    expect(ofKind('F', 'barre chord')).toContain('1 3 3 2 1 1');
    expect(ofKind('Bbm', 'barre chord')).toContain('x 1 3 3 2 1');
    expect(ofKind('E5', 'full')).toEqual(expect.arrayContaining(['0 2 x x x x', '0 2 2 x x x']));
    expect(ofKind('C', 'full', instrument('ukulele'))).toContain('0 0 0 3');
    expect(ofKind('D5', 'full', instrument('guitar-drop-d'))).toContain('0 0 0 x x x');
  });
});
