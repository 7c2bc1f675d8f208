import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { Fader } from '../../../client/engraving/fader.tsx';

const spoken = (value: number): string | undefined =>
  /aria-valuetext="([^"]*)"/.exec(
    renderToStaticMarkup(<Fader words="Bass" value={value} onChange={() => {}} />),
  )?.[1];

describe('a level', () => {
  it.each([
    [0, '0 %'],
    [0.3, '30 %'],
    [0.29, '29 %'],
    [1, '100 %'],
  ])('of %d is said to be %s', (value, words) => {
    expect(spoken(value)).toBe(words);
  });
});
