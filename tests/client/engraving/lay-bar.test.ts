import { describe, expect, it } from 'vitest';
import { laidChord } from '../../../client/engraving/chord-symbol.tsx';
import { barShares, GAP_EM, layBar, REST_EM } from '../../../client/engraving/lay-bar.ts';
import { whileOut } from '../../../client/engraving/while-out.ts';
import type { BarMusic, Cell } from '../../../common/chart/bar-music.ts';

const chord = (symbol: string, atPulse: number, lengthPulses: number): Cell => ({
  kind: 'chord',
  symbol,
  atPulse,
  lengthPulses,
  pushed: false,
  carried: false,
});
const rest = (atPulse: number, lengthPulses = 1): Cell => ({
  ...chord('', atPulse, lengthPulses),
  kind: 'rest',
});
const bar = (cells: readonly Cell[], pulses = 4): BarMusic => ({
  metre: { text: '4/4', upper: 4, lower: 4, pulses: 4, groups: [4], compound: false },
  pulses,
  pickUp: false,
  cells,
  words: [],
  key: '',
});
const asTyped = (symbol: string) => symbol;

describe('what is drawn in a bar', () => {
  it('is as wide as its chords are in the names of the reader', () => {
    const two = bar([chord('G#m7', 0, 2), chord('C#7', 2, 2)]);
    expect(layBar(two, asTyped, 'solfege').widthEm).toBeCloseTo(
      laidChord('G#m7', 'solfege').widthEm + GAP_EM + laidChord('C#7', 'solfege').widthEm,
      9,
    );
    expect(layBar(two, asTyped, 'solfege').widthEm).toBeGreaterThan(layBar(two, asTyped).widthEm);
  });

  it('is as wide as its chords and the gaps between them', () => {
    const laid = layBar(bar([chord('Gm7', 0, 2), chord('C7', 2, 2)]), asTyped);
    expect(laid.widthEm).toBeCloseTo(laidChord('Gm7').widthEm + GAP_EM + laidChord('C7').widthEm, 9);
  });

  it('is read in the reader’s key, unknown symbols as typed', () => {
    const up = (symbol: string) => (symbol === 'Eb7' ? 'F7' : symbol);
    expect(layBar(bar([chord('Eb7', 0, 4)]), up).items[0]).toMatchObject({ symbol: 'F7' });
    const typo: Cell = { ...chord('Xy7', 0, 4), kind: 'unknown' };
    expect(layBar(bar([typo]), () => 'never').items[0]).toMatchObject({ symbol: 'Xy7' });
  });

  it('joins rests that follow each other, one sign a beat', () => {
    const laid = layBar(bar([chord('Fm7', 0, 1), rest(1), rest(2), rest(3)]), asTyped);
    expect(laid.items).toHaveLength(2);
    expect(laid.items[1]).toMatchObject({ kind: 'rest', count: 3, atPulse: 1, lengthPulses: 3 });
  });

  it('draws a bar of nothing but rest as one whole rest', () => {
    expect(layBar(bar([rest(0, 4)]), asTyped).items).toMatchObject([{ kind: 'rest', count: 0 }]);
    expect(layBar(bar([rest(0), rest(1), rest(2), rest(3)]), asTyped).items).toMatchObject([{ count: 0 }]);
  });

  it('takes more room where a chord is pushed or goes on from before', () => {
    const plain = layBar(bar([chord('F7', 0, 4)]), asTyped).widthEm;
    const pushed = layBar(bar([{ ...chord('F7', 0, 4), pushed: true }]), asTyped).widthEm;
    expect(pushed).toBeGreaterThan(plain);
    expect(layBar(bar([{ ...chord('F7', 0, 4), carried: true }]), asTyped).items).toMatchObject([
      { carried: true },
    ]);
  });
});

describe('a bar in which the band is out', () => {
  it('shows the chord on one and rests for the other beats', () => {
    const out = whileOut(layBar(bar([chord('Fm7', 0, 4)]), asTyped), 'hit', 4);
    expect(out.items).toMatchObject([
      { symbol: 'Fm7', lengthPulses: 1 },
      { kind: 'rest', count: 3 },
    ]);
    expect(out.widthEm).toBeCloseTo(laidChord('Fm7').widthEm + GAP_EM + 3 * REST_EM, 9);
  });

  it('keeps what the writer wrote where the bar says it already', () => {
    const written = layBar(bar([chord('Fm7', 0, 1), rest(1, 3)]), asTyped);
    expect(whileOut(written, 'hit', 4)).toBe(written);
  });

  it('shows a whole rest beside the changes where nobody plays', () => {
    const out = whileOut(layBar(bar([chord('Fm7', 0, 4)]), asTyped), 'out', 4);
    expect(out.items[1]).toMatchObject({ kind: 'rest', count: 0 });
  });
});

describe('the shares of a line', () => {
  const holding = (...symbols: string[]) =>
    layBar(bar(symbols.map((symbol, at) => chord(symbol, at, 4 / symbols.length))), asTyped);

  it('are equal where the music allows', () => {
    expect(barShares([holding('F7'), holding('Bbm7'), holding('Gm7', 'C7'), holding('C7alt')])).toEqual([
      1, 1, 1, 1,
    ]);
  });

  it('give a crowded bar more, but never more than 1.7 times', () => {
    const crowded = holding('Ebmaj7#11', 'Abm7b5/Gb');
    const full = holding(...Array.from({ length: 12 }, () => 'Ebmaj7#11'));
    const [plain, more, most] = barShares([holding('F7'), crowded, full]);
    expect(plain).toBe(1);
    expect(more).toBeGreaterThan(1);
    expect(most).toBe(1.7);
  });
});
