import fc from 'fast-check';
import { generateKeyBetween } from 'fractional-indexing';
import { describe, expect, it } from 'vitest';
import {
  blockOrderKeys,
  canGoBetween,
  firstOrderKeys,
  isOrderKey,
} from '../../../common/document/order-key.ts';

describe('order keys', () => {
  it('stand between their neighbours, in order, and leave room, however often things are put in', () => {
    const step = fc.record({ at: fc.nat(), n: fc.integer({ min: 1, max: 70 }), blockId: fc.string() });
    fc.assert(
      fc.property(fc.array(step, { maxLength: 25 }), (steps) => {
        const keys: string[] = [];
        for (const { at, n, blockId } of steps) {
          const index = at % (keys.length + 1);
          const [before, after] = [keys[index - 1] ?? null, keys[index] ?? null];
          expect(canGoBetween(before, after)).toBe(true);
          keys.splice(index, 0, ...blockOrderKeys(before, after, n, blockId));
        }
        for (const [index, key] of keys.entries()) {
          expect(isOrderKey(key)).toBe(true);
          if (index > 0) expect((keys[index - 1] ?? '') < key).toBe(true);
        }
      }),
      { numRuns: 200, seed: 5 },
    );
  });

  it('of two blocks put into one place do not mix', () => {
    for (const [a, b] of [
      ['p1', 'p12'],
      ['abc', 'abd'],
      ['', 'x'],
    ] as const) {
      const keys = [...blockOrderKeys('a0', 'a1V', 40, a), ...blockOrderKeys('a0', 'a1V', 40, b)];
      const sorted = [...keys].sort();
      const first = new Set(sorted.slice(0, 40));
      expect(
        [...first].every((key) => keys.indexOf(key) < 40) ||
          [...first].every((key) => keys.indexOf(key) >= 40),
      ).toBe(true);
    }
  });

  it('of other programs are taken as they are, but nothing goes between odd ones', () => {
    expect(canGoBetween('a0', 'a0')).toBe(false);
    expect(canGoBetween('a1', 'a0')).toBe(false);
    for (const odd of ['', 'a', 'a00', '!', '1', 'b0', `A${'0'.repeat(26)}`]) {
      expect(isOrderKey(odd), odd).toBe(false);
      expect(() => generateKeyBetween(odd, null), odd).toThrow();
    }
    for (const key of firstOrderKeys(200)) expect(isOrderKey(key)).toBe(true);
  });

  it('stay short when bars are written one after the other in the middle', () => {
    let before = 'a0';
    for (let count = 0; count < 100; count++) before = blockOrderKeys(before, 'a1', 1, 'abcdefghij')[0] ?? '';
    expect(before.length).toBeLessThan(60);
  });
});
