import { expect, it } from 'vitest';
import { reseekWords } from '../../../client/stand/use-reseek.ts';

it('says in plain words how far the place has jumped, and which way', () => {
  expect(reseekWords(5200)).toBe('Jumped ahead 5 seconds: this stand was behind the band.');
  expect(reseekWords(-3400)).toBe('Jumped back 3 seconds: this stand was ahead of the band.');
  expect(reseekWords(119_000)).toContain('119 seconds');
  expect(reseekWords(720_000)).toContain('12 minutes');
});
