import { describe, expect, it } from 'vitest';
import { helpLine } from '../../../client/engraving/help-line.ts';
import { barShares, layBar } from '../../../client/engraving/lay-bar.ts';
import { readChart } from '../../../common/chart/read-chart.ts';
import { unroll } from '../../../common/form/unroll.ts';
import { type HelpWish, roadHelp } from '../../../common/help/road-help.ts';
import { GUITAR } from '../../../common/shapes/fretboard/fret-instrument.ts';
import { CONCERT } from '../../../common/theory/transpose.ts';

const SHAPES: HelpWish = { kind: 'shapes', instrument: GUITAR, kinds: ['shell'] };
const asTyped = (symbol: string): string => symbol;

const barsOf = (line: string, wish: HelpWish = SHAPES) => {
  const { road } = unroll(readChart(`key: F\n[A]\n${line}\n`).chart);
  const helps = roadHelp(road, wish, CONCERT)[0]?.pass ?? [];
  return (road.legs[0]?.bars ?? []).map(({ content }, at) => ({
    music: content.music,
    helps: helps[at] ?? [],
  }));
};

const PAD_PX = 14;
const LEAST_PX = 104;

/** What CSS makes of a length in a bar that is so wide within its edges. */
const lengthPx = (css: string, widthPx: number): number => {
  const sum = css
    .replaceAll('min(', 'Math.min(')
    .replaceAll('100cqw', `${widthPx}`)
    .replaceAll('var(--pad)', `${PAD_PX}`)
    .replaceAll('var(--least)', `${LEAST_PX}`)
    .replaceAll('px', '');
  return Number(new Function(`return ${sum}`)());
};

/** The common width in each bar of a line of that width. */
const fits = (line: string, linePx: number): number[] => {
  const bars = barsOf(line);
  const shares = barShares(bars.map(({ music }) => layBar(music, asTyped)));
  const all = shares.reduce((sum, share) => sum + share, 0);
  const { widthIn } = helpLine(bars, asTyped, 'english');
  return shares.map((share, at) => {
    const edges = 2 * PAD_PX + (at === shares.length - 1 ? 4 : 2);
    return lengthPx(widthIn(at), (linePx * share) / all - edges);
  });
};

describe('what all that stands under a line has in common', () => {
  it.each([
    ['| F | Gm7 C7 | F | Bb |', 1000],
    ['| Fmaj7 D7b9 Gm7 C7b9 | F | Gm7 C7 | F |', 1000],
    ['| F | C7 |', 334],
    ['| Gm7 C7 | Am7 D7 |', 334],
  ])('is as wide in every bar of %s', (line, widthPx) => {
    const [first = 0, ...others] = fits(line, widthPx);
    for (const other of others) expect(other).toBeCloseTo(first, 0);
    expect(first).toBeGreaterThan(60);
  });

  it('is as wide as the narrowest place under a chord', () => {
    // Four bars of 250 px, less padding and bar line; two chords share the second.
    expect(fits('| F | Gm7 C7 | F | Bb |', 1000)[0]).toBeCloseTo((250 - 30) / 2, 0);
    // Three beats and one: the short one has what can be read at least.
    expect(fits('| F | Gm7 / / C7 | F | Bb |', 1000)[0]).toBeCloseTo(LEAST_PX, 0);
    // A chord on beat one and a rest have half a bar each.
    expect(fits('| F | Gm7 / r r | F | Bb |', 1000)[0]).toBeCloseTo((250 - 30) / 2, 0);
  });

  it('is narrow where one bar of the line is crowded, and shows as many frets as the longest shape', () => {
    const line = (text: string, wish?: HelpWish) => helpLine(barsOf(text, wish), asTyped, 'english');
    expect(line('| F | Gm7 C7 |').narrow).toBe(false);
    expect(line('| F | Gm7 C7 F |').narrow).toBe(true);
    expect(helpLine(barsOf('| F | Gm7 C7 |'), asTyped, 'english', 2).narrow).toBe(true);
    expect(line('| F | Gm7 |').frets).toBe(4);
    const keys = line('| F | Gm7 C7 |', { kind: 'voicings', style: 'twoHands' });
    expect(keys.keyboardWidth).toBeGreaterThan(100);
    // The right hand stands beside the left one.
    expect(keys.notes.rows).toBeLessThanOrEqual(4);
    const sung = helpLine(
      barsOf('| F | Gm7 C7 |', { kind: 'voicings', style: 'rootless' }),
      asTyped,
      'solfege',
    );
    expect(sung.notes.widthEm).toBeGreaterThan(1);
  });
});
