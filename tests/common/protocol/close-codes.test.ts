import { expect, it } from 'vitest';
import { CLOSE_CODES, type CloseName, isFinal } from '../../../common/protocol/close-codes.ts';
import { sentenceOf } from '../../../common/protocol/close-sentences.ts';

const names = Object.keys(CLOSE_CODES) as CloseName[];

it('has a sentence for every code, short enough for the reason of a close frame (RFC 6455 §5.5: 125 bytes with the code)', () => {
  for (const name of names) {
    expect(new TextEncoder().encode(sentenceOf(name)).length).toBeLessThanOrEqual(123);
    expect(sentenceOf(name)).toMatch(/^[A-Z].*\.$/);
  }
  expect(new Set(Object.values(CLOSE_CODES)).size).toBe(names.length);
});

it('lets the page try again after codes of the network, and after none that turns it away', () => {
  expect([1006, 1012, 4500].some(isFinal)).toBe(false);
  expect([4400, 4499].every(isFinal)).toBe(true);
});
