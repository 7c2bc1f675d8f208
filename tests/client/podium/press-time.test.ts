import { describe, expect, it } from 'vitest';
import { pressTime } from '../../../client/podium/press-time.ts';

describe('the time of a press', () => {
  it('is when the finger came down, not when the page heard of it', () => {
    expect(pressTime(900, 930, 50_000)).toBe(49_970);
  });

  it('is now where the stamp is of another clock or too old to be believed', () => {
    expect(pressTime(1_700_000_000_000, 930, 50_000)).toBe(50_000);
    expect(pressTime(900, 2_000, 50_000)).toBe(50_000);
  });
});
