import { describe, expect, it } from 'vitest';
import { goneOn, typedBars } from '../../../client/pencil/typed-bars.ts';

const texts = (typed: string) => typedBars(typed).map(({ text }) => text);
const signs = (typed: string) =>
  typedBars(typed).map(({ left, right, ending }) =>
    [left, ending, right].filter((sign) => sign !== '').join(' '),
  );

describe('what is typed into a bar', () => {
  it('is one bar without a bar line', () => {
    expect(texts(' C7 ')).toEqual(['C7']);
    expect(texts('')).toEqual(['']);
    expect(texts('"a | b" C7')).toEqual(['"a | b" C7']);
  });

  it('becomes bars of their own at its bar lines, but not inside words', () => {
    expect(texts('Fm7 | "a | b" Bb7 | Eb7')).toEqual(['Fm7', '"a | b" Bb7', 'Eb7']);
    expect(texts('| Fm7 | Bb7 |')).toEqual(['Fm7', 'Bb7']);
    expect(texts('Fm7 | | Eb7')).toEqual(['Fm7', '', 'Eb7']);
  });

  it('takes the signs that are typed with it', () => {
    expect(signs('|: Fm7 | Bb7 :|x3')).toEqual(['|:', ':|x3']);
    expect(signs('Fm7 |1. Bb7 :|2. Eb7 |]')).toEqual(['', '1. :|', '2. |]']);
    expect(signs('Fm7 ||')).toEqual(['||']);
  });

  it('may be nothing but a sign', () => {
    expect(typedBars(':|')).toMatchObject([{ text: '', right: ':|' }]);
  });
});

describe('typing on over a bar line', () => {
  it('goes into the next bar with its first letter', () => {
    expect(goneOn('Fm7 | B')).toEqual({ finished: 'Fm7 |', begun: 'B' });
    expect(goneOn('Fm7|%')).toEqual({ finished: 'Fm7|', begun: '%' });
    expect(goneOn('Fm7 :|x3 E')).toEqual({ finished: 'Fm7 :|x3', begun: 'E' });
  });

  it('waits while the bar line may become a sign, or stands inside words', () => {
    for (const typed of [
      'Fm7 |',
      'Fm7 | ',
      'Fm7 ||',
      'Fm7 |1',
      'Fm7 |1.',
      'Fm7 :|x',
      '"a | b',
      '"a |b',
      'C7 "a |C',
      '|: F',
      '| F',
    ])
      expect(goneOn(typed), typed).toBeNull();
  });
});
