import { expect, it } from 'vitest';
import {
  CLOSE_CODES,
  type CloseName,
  closeWords,
  isFinal,
  sentenceOf,
} from '../../../common/protocol/close-codes.ts';

const names = Object.keys(CLOSE_CODES) as CloseName[];

it('has a sentence for every code, short enough for the reason of a close frame (RFC 6455 §5.5: 125 bytes with the code)', () => {
  for (const name of names) {
    expect(closeWords(CLOSE_CODES[name])).toBe(sentenceOf(name));
    expect(new TextEncoder().encode(sentenceOf(name)).length).toBeLessThanOrEqual(123);
    expect(sentenceOf(name)).toMatch(/^[A-Z].*\.$/);
  }
  expect(new Set(Object.values(CLOSE_CODES)).size).toBe(names.length);
});

it('has no words for codes of the network, after which the page tries again', () => {
  expect([1000, 1001, 1006, 1012].map(closeWords)).toEqual([null, null, null, null]);
  expect([1006, 1012, 4500].some(isFinal)).toBe(false);
  expect([4400, 4499].every(isFinal)).toBe(true);
});
