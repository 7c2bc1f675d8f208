import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  foldLine,
  roleOf,
  rollLines,
  sameLine,
  splitLines,
  standLines,
} from '../../../client/stand/stand-lines.ts';
import { barsPerLine } from '../../../client/stand/use-bars-per-line.ts';
import { leg, legBars, played } from './coming-bars.ts';

const blues = legBars(12, [3, 7, 11], { 0: 'A' });
const head = leg('l1', 'Head', 1, blues);
const solos = leg('l2', 'Solos', 'open', blues);
const numbers = (line: { bars: readonly { place: { barIndex: number } }[] }) =>
  line.bars.map((bar) => bar.place.barIndex + 1);

describe('the lines of a stand', () => {
  it('are as long as the writer wrote them', () => {
    const bars = played([{ leg: leg('l', 'Head', 1, legBars(11, [2, 10])), pass: 1 }]);
    expect(standLines(bars, 9).map(numbers)).toEqual([
      [1, 2, 3],
      [4, 5, 6, 7, 8, 9, 10, 11],
    ]);
  });

  it('end where the pass or the leg does, also where no line was ended', () => {
    const short = leg('v', 'Vamp', 'vamp', legBars(2, []));
    const bars = played([
      { leg: short, pass: 1 },
      { leg: short, pass: 2 },
      { leg: head, pass: 1 },
    ]);
    expect(splitLines(bars).map((line) => line.length)).toEqual([2, 2, 4, 4, 4]);
  });

  it('end where the road jumps', () => {
    const bars = played([{ leg: head, pass: 1 }]);
    const jumped = [...bars.slice(0, 2), ...bars.slice(6, 9)];
    expect(splitLines(jumped).map((line) => line.map((bar) => bar.place.barIndex))).toEqual([
      [0, 1],
      [6, 7],
      [8],
    ]);
  });

  it('are folded in equal parts where the screen is too narrow', () => {
    const bars = played([{ leg: leg('l', 'Head', 1, legBars(8, [7])), pass: 1 }]);
    expect(standLines(bars, 5).map(numbers)).toEqual([
      [1, 2, 3, 4],
      [5, 6, 7, 8],
    ]);
    expect(standLines(bars, 2)).toHaveLength(4);
  });

  it('leave a pick-up beside the first bar', () => {
    const bars = [-1, 0, 1, 2, 3].map((barIndex) => ({ place: { barIndex } }));
    expect(foldLine(bars, 4)).toHaveLength(1);
    expect(foldLine(bars, 2).map((row) => row.length)).toEqual([3, 2]);
  });

  it('name the leg that begins with them, and which chorus it is', () => {
    const lines = standLines(
      played([
        { leg: head, pass: 1 },
        { leg: solos, pass: 1 },
        { leg: solos, pass: 2 },
      ]),
      4,
    );
    expect(lines.map(({ heading, newLeg }) => [heading, newLeg])).toEqual([
      ['Head', true],
      [undefined, false],
      [undefined, false],
      ['Solos', true],
      [undefined, false],
      [undefined, false],
      ['chorus 2', false],
      [undefined, false],
      [undefined, false],
    ]);
  });

  it('carry the rehearsal letter of their first bar', () => {
    expect(standLines(played([{ leg: head, pass: 1 }]), 4).map((line) => line.letter)).toEqual([
      'A',
      undefined,
      undefined,
    ]);
  });

  it('are the same for the eye after another cue or another bar, unless something in them changed', () => {
    const lines = () => standLines(played([{ leg: solos, pass: 1 }]), 4);
    const [first, second] = lines();
    const [again] = lines();
    if (first === undefined || second === undefined || again === undefined) throw new Error('no lines');
    const bar = again.bars[1];
    if (bar === undefined) throw new Error('no second bar');
    const withBar = (changed: Partial<typeof bar>) => ({
      ...again,
      bars: again.bars.map((one) => (one === bar ? { ...bar, ...changed } : one)),
    });
    expect(sameLine(first, again)).toBe(true);
    expect(sameLine(first, second)).toBe(false);
    expect(sameLine(first, withBar({ startMs: 1 }))).toBe(true);
    expect(sameLine(first, withBar({ out: 'hit' }))).toBe(false);
    expect(sameLine(first, withBar({ bar: { ...bar.bar, id: 'other' } }))).toBe(false);
    expect(sameLine(first, { ...again, heading: 'chorus 9' })).toBe(false);
    expect(sameLine(first, { ...again, bars: again.bars.slice(1) })).toBe(false);
  });

  it('lose no bar and keep their order, however they are folded', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 20 }),
        fc.array(fc.nat({ max: 19 }), { maxLength: 5 }),
        fc.integer({ min: 1, max: 9 }),
        (count, ends, max) => {
          const bars = played([{ leg: leg('l', 'Head', 2, legBars(count, ends)), pass: 1 }]);
          const lines = standLines(bars, max);
          expect(lines.flatMap((line) => line.bars)).toEqual(bars);
          expect(Math.max(...lines.map((line) => line.bars.length))).toBeLessThanOrEqual(max);
          expect(new Set(lines.map((line) => line.key)).size).toBe(lines.length);
        },
      ),
      { numRuns: 200, seed: 11 },
    );
  });
});

describe('the roll', () => {
  const lines = standLines(
    played([
      { leg: head, pass: 1 },
      { leg: solos, pass: 1 },
    ]),
    4,
  );

  it('shows the line before, the one being played and those to come', () => {
    const rolled = rollLines(lines, 5);
    expect(rolled.map((line) => [numbers(line)[0], roleOf(line.distance)])).toEqual([
      [1, 'past'],
      [5, 'now'],
      [9, 'next'],
      [1, 'later'],
      [5, 'far'],
    ]);
  });

  it('has the first line next while the band is counted in', () => {
    expect(rollLines(lines, null).map((line) => roleOf(line.distance))).toEqual(['next', 'later', 'far']);
  });

  it('puts two bars beside each other on a phone, four on a tablet, more on a wide screen', () => {
    expect(barsPerLine(362, 844)).toBe(2);
    expect(barsPerLine(1124, 820)).toBeGreaterThanOrEqual(4);
    expect(barsPerLine(764, 1180)).toBe(4);
    expect(barsPerLine(1864, 1080)).toBeGreaterThan(4);
  });
});
