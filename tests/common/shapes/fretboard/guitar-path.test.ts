import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fretInstrumentById, GUITAR } from '../../../../common/shapes/fretboard/fret-instrument.ts';
import type { FretShape } from '../../../../common/shapes/fretboard/fret-shape.ts';
import { gripOf } from '../../../../common/shapes/fretboard/grip.ts';
import { type GuitarPathOptions, guitarPath } from '../../../../common/shapes/fretboard/guitar-path.ts';
import { fretMm } from '../../../../common/shapes/fretboard/hand.ts';
import { MOVEMENT } from '../../../../common/shapes/fretboard/movement.ts';
import { shapesOf } from '../../../../common/shapes/fretboard/shapes-of.ts';
import { SEMITONE_COST } from '../../../../common/shapes/path-cost.ts';
import { type ChordSymbol, readChordSymbol } from '../../../../common/theory/chord-symbol.ts';

const chord = (text: string): ChordSymbol => {
  const symbol = readChordSymbol(text);
  if (symbol === null) throw new Error(`no chord ${text}`);
  return symbol;
};

/** `N.C.` is a step without a chord. */
const path = (form: string, options: Partial<GuitarPathOptions> = {}) =>
  guitarPath(
    form.split(' ').map((text) => (text === 'N.C.' ? null : chord(text))),
    { instrument: GUITAR, ...options },
  );

const written = (shape: FretShape | null | undefined): string =>
  shape ? shape.frets.map((fret) => fret ?? 'x').join(' ') : '–';

const shapeAt = (symbol: string, frets: string): FretShape => {
  const found = shapesOf(chord(symbol), GUITAR).find((shape) => written(shape) === frets);
  if (found === undefined) throw new Error(`${symbol} has no shape ${frets}`);
  return found;
};

/** In semitones of a voice. */
const moved = (from: FretShape, to: FretShape): number =>
  MOVEMENT.move(gripOf(from, GUITAR), gripOf(to, GUITAR)) / SEMITONE_COST;
const own = (shape: FretShape): number => MOVEMENT.own(gripOf(shape, GUITAR)) / SEMITONE_COST;
/** Lengths are rounded to the whole numbers that costs are. */
const ROUNDED = 1;

const costOf = (taken: readonly FretShape[], closed: boolean): number =>
  taken.reduce((sum, shape, i) => {
    const next = taken[i + 1] ?? (closed ? taken[0] : undefined);
    return sum + own(shape) + (next === undefined ? 0 : moved(shape, next));
  }, 0);

const symbols = fc.constantFrom(
  'Cmaj7',
  'C#dim7',
  'Dm7',
  'G7',
  'Gm7',
  'C7',
  'Fmaj7',
  'Bb7',
  'Em7b5',
  'A7b9',
  'F',
  'Am',
);

describe('what moving costs', () => {
  it('[SHAPE-15] adds up shift, voices, top voice and fingers placed, as counted by hand', () => {
    const from = shapeAt('G7', '3 x 3 4 x x');
    // Two voices stay, B3 goes down a semitone to B♭3, which is the top voice; its string is pressed anew.
    expect(moved(from, shapeAt('Gm7', '3 x 3 3 x x'))).toBeCloseTo(1 + 0.5 + 0.25, 9);
    // Nothing moves.
    expect(moved(from, from)).toBe(0);
    // The same hand two frets up: 650 mm · (2^(−3/12) − 2^(−5/12)) = 59.57 mm, three voices by two semitones.
    const mm = 650 * (2 ** (-3 / 12) - 2 ** (-5 / 12));
    expect(moved(from, shapeAt('A7', '5 x 5 6 x x'))).toBeCloseTo(
      mm / 20 + 3 * 2 + 0.5 * 2 + 3 * 0.25,
      ROUNDED,
    );
    // Over open strings alone the hand is free: E minor eleventh, all strings open, has no place.
    expect(shapeAt('Em11', '0 0 0 0 0 0').handFret).toBe(0);
  });

  it('[SHAPE-15] counts a voice that begins or ends, and no leap for more than both', () => {
    const three = shapeAt('G7', '3 x 3 4 x x');
    const four = shapeAt('G7', '3 x 3 4 3 x');
    // From the top: D4 over B3, 3 semitones and half of it more; then B3 over F3 6, F3 over G2 10, which counts 6; one voice more.
    expect(moved(three, four)).toBeCloseTo(3 + 1.5 + 6 + 6 + 3 + 0.25, 9);
  });

  it('[SHAPE-15] is what it says, string by string and voice by voice, on instruments of any number of strings', () => {
    const many = { ...GUITAR, openMidi: [28, 33, 38, 40, 45, 50, 55, 59, 64, 69] };
    const some = { ...shapeAt('C', 'x 3 2 0 1 0'), kinds: [] };
    const instruments = [GUITAR, fretInstrumentById('ukulele') ?? GUITAR, many];
    const fret = fc.option(fc.integer({ min: 0, max: 15 }), { nil: null, freq: 3 });
    const drawn = fc
      .constantFrom(...instruments)
      .chain((instrument) =>
        fc.tuple(
          fc.constant(instrument),
          ...[0, 1].map(() => fc.array(fret, { minLength: 10, maxLength: 10 })),
        ),
      );
    const placed = ({ openMidi }: typeof GUITAR, ten: readonly (number | null)[]): FretShape => {
      const frets = openMidi.map((_, string) => (string < 2 ? (ten[string] ?? 3) : (ten[string] ?? null)));
      const midi = frets.flatMap((at, string) => (at === null ? [] : [(openMidi[string] ?? 0) + at]));
      const pressedFrets = frets.filter((at) => at !== null && at > 0) as number[];
      return {
        ...some,
        frets,
        midi: midi.sort((a, b) => a - b),
        handFret: pressedFrets.length === 0 ? 0 : Math.min(...pressedFrets),
      };
    };
    fc.assert(
      fc.property(drawn, ([instrument, ...tens]) => {
        const [from, to] = tens.map((ten) => placed(instrument, ten as (number | null)[])) as [
          FretShape,
          FretShape,
        ];
        const downward = [from, to].map(({ midi }) => midi.toReversed()) as [number[], number[]];
        const common = Math.min(downward[0].length, downward[1].length);
        const leaps = Array.from({ length: common }, (_, voice) =>
          Math.abs((downward[0][voice] ?? 0) - (downward[1][voice] ?? 0)),
        );
        const anew = to.frets.filter((at, string) => at !== null && at > 0 && at !== from.frets[string]);
        const isFree = from.handFret === 0 || to.handFret === 0;
        const shiftMm = Math.abs(
          fretMm(from.handFret, instrument.scaleLengthMm) - fretMm(to.handFret, instrument.scaleLengthMm),
        );
        const expected =
          (isFree ? 0 : shiftMm / 20) +
          leaps.reduce((sum, leap) => sum + Math.min(leap, 6), 0) +
          3 * Math.abs(downward[0].length - downward[1].length) +
          0.5 * (leaps[0] ?? 0) +
          0.25 * anew.length;
        const grips = [gripOf(from, instrument), gripOf(to, instrument)] as const;
        expect(MOVEMENT.move(...grips) / SEMITONE_COST).toBeCloseTo(expected, ROUNDED);
        const { parts } = MOVEMENT;
        if (parts === undefined) throw new Error('not in parts');
        const sums = [
          parts.betweenFamilies(parts.family(grips[0]), parts.family(grips[1])),
          parts.betweenGroups(parts.group(grips[0]), parts.group(grips[1])),
          parts.rest(...grips),
        ];
        expect(Math.min(...sums)).toBeGreaterThanOrEqual(0);
        expect(sums.reduce((sum, part) => sum + part, 0)).toBe(MOVEMENT.move(...grips));
      }),
      { numRuns: 2000 },
    );
  });

  // Common practice, no source: the first shapes of a ukulele player.
  it('[SHAPE-16] keeps a small instrument near the nut, whatever comes round', () => {
    const ukulele = fretInstrumentById('ukulele') ?? GUITAR;
    const full = (form: string) =>
      path(form, { instrument: ukulele, kinds: ['full'], closed: true }).shapes.map(written);
    expect(full('C7')).toEqual(['0 0 0 1']);
    expect(full('Gm7 C7')).toEqual(['0 2 1 1', '0 0 0 1']);
    expect(full('C')).toEqual(['0 0 0 3']);
    for (const id of ['ukulele', 'ukulele-low-g', 'baritone-ukulele', 'mandolin']) {
      const instrument = fretInstrumentById(id) ?? GUITAR;
      const symbolsOfForm = 'Gm7 C7 F Fmaj7 Am7 D7 Bb6 G7 Dm7b5 F7'.split(' ').map(chord);
      const { shapes } = guitarPath(symbolsOfForm, { instrument, kinds: ['full'], closed: true });
      for (const shape of shapes) expect(Math.max(...(shape?.frets ?? []).map(Number))).toBeLessThan(6);
    }
  });

  it('[SHAPE-16] a shape costs its stretch, fingers, barres, silent strings, height, inversion and mud', () => {
    // Three fingers, one silent string inside.
    expect(own(shapeAt('G7', '3 x 3 4 x x'))).toBeCloseTo(0.75 + 1, 9);
    // Strummed: four fingers, one of them a barre of the index finger, and less than 70 mm.
    expect(own(shapeAt('F', '1 3 3 2 1 1'))).toBe(1 + 1);
    // Nothing for the third B2 over G2 nor for D3 over that.
    expect(own(shapeAt('G', '3 2 0 0 0 3'))).toBe(0.75);
    // Two strings are left out, one of them inside, and it does not stand on its root.
    expect(own(shapeAt('G', 'x 2 0 0 x 3'))).toBe(0.5 + 1 + 2 + 1 + 3);
    // A barre chord three frets above the fifth.
    expect(own(shapeAt('C', '8 10 10 9 8 8'))).toBe(1 + 1 + 1.5);
    // First inversion, on the high strings: three fingers.
    expect(own(shapeAt('C', 'x x x 9 8 8'))).toBeGreaterThan(own(shapeAt('C', 'x x x 5 5 3')) - 2);
    expect(own(shapeAt('Am', 'x x x 5 5 5'))).toBeCloseTo(1 + 0.25, 9);
  });
});

describe('the path for guitar', () => {
  it('[SHAPE-17] costs as little as the cheapest of all choices, over short progressions', {
    timeout: 60_000,
  }, () => {
    fc.assert(
      fc.property(
        fc.array(symbols, { minLength: 1, maxLength: 4 }),
        fc.constantFrom<GuitarPathOptions['kinds']>(['shell', 'triad'], ['drop 3'], ['barre chord']),
        fc.boolean(),
        (form, kinds = [], closed) => {
          // A chord that is repeated counts once, over the seam as well.
          const changes = form.filter(
            (symbol, i) =>
              symbol !== (i > 0 ? form[i - 1] : closed && new Set(form).size > 1 ? form.at(-1) : ''),
          );
          const lists = changes.map((symbol) => {
            const wanted = shapesOf(chord(symbol), GUITAR, { kinds });
            return wanted.length > 0 ? wanted : shapesOf(chord(symbol), GUITAR, { bassPlays: false });
          });
          fc.pre(lists.reduce((product, list) => product * list.length, 1) <= 30_000);
          const every = lists.reduce<FretShape[][]>(
            (paths, list) => paths.flatMap((before) => list.map((shape) => [...before, shape])),
            [[]],
          );
          const { shapes } = path(form.join(' '), { kinds, closed });
          form.forEach((symbol, i) => {
            if (symbol === form[i - 1]) expect(shapes[i]).toBe(shapes[i - 1]);
          });
          const found = shapes.filter(
            (shape, i): shape is FretShape =>
              shape !== null &&
              form[i] !== (i > 0 ? form[i - 1] : closed && new Set(form).size > 1 ? form.at(-1) : ''),
          );
          expect(costOf(found, closed)).toBeCloseTo(
            Math.min(...every.map((taken) => costOf(taken, closed))),
            9,
          );
        },
      ),
      { numRuns: 25 },
    );
  });

  // Common practice, no source: chords as they are strummed to songs.
  it('[SHAPE-16] strums all strings that can sound, over the root', () => {
    const strummed = (form: string) =>
      path(form, { kinds: ['open chord', 'barre chord'], closed: true }).shapes.map(written);
    expect(strummed('A D E A')).toEqual(['x 0 2 2 2 0', 'x x 0 2 3 2', '0 2 2 1 0 0', 'x 0 2 2 2 0']);
    expect(strummed('Em G D A')).toEqual(['0 2 2 0 0 0', '3 2 0 0 0 3', 'x x 0 2 3 2', 'x 0 2 2 2 0']);
    expect(strummed('F Bb C7 F')[0]).toBe('1 3 3 2 1 1');
    const barred = path('C Am G', { kinds: ['barre chord'], closed: true }).shapes.map(written);
    expect(barred).toEqual(['x 3 5 5 5 3', '5 7 7 5 5 5', '3 5 5 4 3 3']);
  });

  // Common practice, no source: a chord without a seventh among shells stands on its root.
  it('[SHAPE-17] has a chord without shells on its root', () => {
    for (const shape of path('Dm7 G7 C F', { kinds: ['shell'], closed: true }).shapes)
      expect(shape?.isInverted).toBe(false);
  });

  it('[SHAPE-17] keeps to a pinned shape and lets the others come to it', () => {
    const pins = new Map([[2, shapeAt('Cmaj7', 'x 3 2 4 x x').frets]]);
    const { shapes, lostPins } = path('Dm7 G7 Cmaj7', { kinds: ['shell'], pins });
    expect(written(shapes[2])).toBe('x 3 2 4 x x');
    expect(lostPins).toEqual([]);
    // The shells nearest to it: ii–V–I in one place (common practice, no source).
    expect(shapes.map(written).slice(0, 2)).toEqual(['x 5 3 5 x x', '3 x 3 4 x x']);
  });

  it('[SHAPE-17] takes a pin of any kind, and names a pin that is no shape of its chord', () => {
    const open = shapeAt('C', 'x 3 2 0 1 0').frets;
    const pins = new Map([
      [0, open],
      [1, open],
    ]);
    const { shapes, lostPins } = path('C G7', { kinds: ['shell'], pins });
    expect(written(shapes[0])).toBe('x 3 2 0 1 0');
    expect(shapes[1]?.kinds).toContain('shell');
    expect(lostPins).toEqual([1]);
  });

  it('[SHAPE-17] a pin is for the chord and what repeats it, up to another pin', () => {
    const [low, high] = ['x 3 2 4 x x', '8 x 9 9 x x'].map((frets) => shapeAt('Cmaj7', frets).frets);
    if (!low || !high) throw new Error('no such shape');
    const form = 'Dm7 Cmaj7 Cmaj7 Cmaj7 Cmaj7 G7';
    const one = path(form, { pins: new Map([[2, high]]) }).shapes.map(written);
    expect(one.slice(1, 5)).toEqual(Array(4).fill('8 x 9 9 x x'));
    const pins = new Map([
      [2, high],
      [4, low],
    ]);
    const two = path(form, { pins }).shapes.map(written);
    expect(two.slice(1, 5)).toEqual([...Array(3).fill('8 x 9 9 x x'), 'x 3 2 4 x x']);
    const round = path('Cmaj7 G7 Cmaj7', { closed: true, pins: new Map([[0, high]]) }).shapes.map(written);
    expect(round[2]).toBe('8 x 9 9 x x');
  });

  it('[SHAPE-17] passes over what has no chord, and takes other kinds where there is none of those wanted', () => {
    const { shapes } = path('G7 N.C. C', { kinds: ['shell'] });
    expect(shapes[0]?.kinds).toContain('shell');
    expect(shapes[1]).toBeNull();
    expect(shapes[2]).not.toBeNull();
    expect(path('N.C.', {}).shapes).toEqual([null]);
  });

  it('[SHAPE-17] a form that goes round costs no more round than an open path would', () => {
    const form = 'Am7 D7 Gmaj7 Cmaj7 F#m7b5 B7 Em7 E7b9';
    const kinds: GuitarPathOptions['kinds'] = ['drop 2', 'drop 3', 'shell'];
    const round = path(form, { kinds, closed: true }).shapes.filter((shape) => shape !== null);
    const open = path(form, { kinds }).shapes.filter((shape) => shape !== null);
    expect(costOf(round, true)).toBeLessThanOrEqual(costOf(open, true));
    expect(costOf(open, false)).toBeLessThanOrEqual(costOf(round, false));
  });
});
