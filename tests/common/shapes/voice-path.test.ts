import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type PathOptions, voicePath } from '../../../common/shapes/voice-path.ts';

interface Shape {
  readonly own: number;
  readonly x: number;
  readonly y: number;
}

const own = (shape: Shape): number => shape.own;
/** No metric on purpose: not symmetric, and two short moves may cost less than one. */
const move = (from: Shape, to: Shape): number => (to.x - from.x) ** 2 + ((from.y * 7 + to.y * 3) % 5);

const shapes = fc.array(fc.record({ own: fc.nat(9), x: fc.nat(9), y: fc.nat(9) }), {
  minLength: 1,
  maxLength: 4,
});

/** A form of a few lists, some of which come back as the same object. */
const forms = fc
  .tuple(
    fc.array(shapes, { minLength: 1, maxLength: 3 }),
    fc.array(fc.nat(2), { minLength: 1, maxLength: 6 }),
  )
  .map(([lists, form]) => form.map((i) => lists[i % lists.length] ?? []));

const options = fc.record({
  closed: fc.boolean(),
  pins: fc.array(fc.tuple(fc.nat(5), fc.nat(3)), { maxLength: 2 }),
});

const costOf = (steps: readonly (readonly Shape[])[], path: readonly number[], closed: boolean): number => {
  const taken = path.map((index, step) => steps[step]?.[index]) as Shape[];
  const inside = taken.slice(1).reduce((sum, shape, i) => sum + move(taken[i] as Shape, shape), 0);
  const home = closed ? move(taken.at(-1) as Shape, taken[0] as Shape) : 0;
  return taken.reduce((sum, shape) => sum + own(shape), 0) + inside + home;
};

const everyPath = (steps: readonly (readonly Shape[])[]): number[][] =>
  steps.reduce<number[][]>(
    (paths, list) => paths.flatMap((path) => list.map((_, index) => [...path, index])),
    [[]],
  );

describe('a path through shapes', () => {
  it('costs as little as the cheapest of all paths, open or round, pinned or free', () => {
    fc.assert(
      fc.property(forms, options, (steps, { closed, pins: drawn }) => {
        const pins = new Map(
          drawn
            .filter(([step]) => step < steps.length)
            .map(([step, index]) => [step, index % (steps[step]?.length ?? 1)]),
        );
        const path = voicePath(steps, { own, move }, { closed, pins });
        const allowed = everyPath(steps).filter((one) => [...pins].every(([step, i]) => one[step] === i));
        const least = Math.min(...allowed.map((one) => costOf(steps, one, closed)));
        expect(path).toHaveLength(steps.length);
        for (const [step, index] of pins) expect(path[step]).toBe(index);
        expect(costOf(steps, path, closed)).toBe(least);
      }),
      { numRuns: 2000 },
    );
  });

  it('is the same each time it is asked for', () => {
    fc.assert(
      fc.property(forms, fc.boolean(), (steps, closed) => {
        const again = steps.map((list) => [...list]);
        expect(voicePath(again, { own, move }, { closed })).toEqual(
          voicePath(steps, { own, move }, { closed }),
        );
      }),
    );
  });

  it('is no dearer where moves come in parts, and asks for far fewer of them', () => {
    const line = fc.array(fc.nat(99), { minLength: 1, maxLength: 40 });
    const asked = { plain: 0, bounded: 0 };
    fc.assert(
      fc.property(fc.array(line, { minLength: 1, maxLength: 8 }), fc.boolean(), (steps, closed) => {
        const far = (from: number, to: number): number => Math.abs(to - from) + ((from * to) % 3);
        const ownOf = (x: number): number => x % 7;
        const plain = {
          own: ownOf,
          move: (from: number, to: number) => {
            asked.plain++;
            return whole(from, to);
          },
        };
        // Three parts: what the tens tell, what the parity of the ones tells, and the rest.
        const tens = (x: number): number => Math.floor(x / 10);
        const parity = (x: number): number => x % 2;
        const betweenTens = (from: number, to: number): number => Math.max(0, 10 * Math.abs(to - from) - 9);
        const betweenParities = (from: number, to: number): number => 2 * Math.abs(to - from);
        const whole = (from: number, to: number): number =>
          far(from, to) + betweenParities(parity(from), parity(to));
        const bounded = {
          own: ownOf,
          move: whole,
          parts: {
            family: tens,
            betweenFamilies: betweenTens,
            group: parity,
            betweenGroups: betweenParities,
            rest: (from: number, to: number) => {
              asked.bounded++;
              return far(from, to) - betweenTens(tens(from), tens(to));
            },
          },
        };
        const total = (path: readonly number[]): number => {
          const taken = path.map((index, step) => steps[step]?.[index] ?? Number.NaN);
          const inside = taken.slice(1).reduce((sum, x, i) => sum + whole(taken[i] ?? Number.NaN, x), 0);
          const home = closed ? whole(taken.at(-1) ?? Number.NaN, taken[0] ?? Number.NaN) : 0;
          return taken.reduce((sum, x) => sum + ownOf(x), 0) + inside + home;
        };
        expect(total(voicePath(steps, bounded, { closed }))).toBe(total(voicePath(steps, plain, { closed })));
      }),
    );
    expect(asked.bounded).toBeLessThan(asked.plain);
  });

  it('goes the short way', () => {
    const near = { own: () => 0, move: (from: number, to: number) => Math.abs(to - from) };
    expect(voicePath([[1, 5], [4, 7], [8]], near)).toEqual([1, 1, 0]);
  });

  it('of no steps is empty', () => {
    expect(voicePath([], { own, move })).toEqual([]);
    expect(voicePath([], { own, move }, { closed: true })).toEqual([]);
  });

  it.each<[string, readonly (readonly Shape[])[], PathOptions]>([
    ['step 0 has no shape', [[]], {}],
    ['step 0 is pinned to shape 2, expected 0 to 0', [[{ own: 0, x: 0, y: 0 }]], { pins: new Map([[0, 2]]) }],
  ])('says what is wrong with what it is given: %s', (words, steps, wrong) => {
    expect(() => voicePath(steps, { own, move }, wrong)).toThrow(words);
  });
});
