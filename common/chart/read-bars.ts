import type { BarMusic } from './bar-music.ts';
import { readBarText } from './bar-text.ts';
import type { Bar, Chart } from './chart.ts';
import { type Found, spotKey } from './found.ts';
import { keyTextOf, metreOf } from './head.ts';
import type { Problem } from './problem.ts';
import { type BarRead, readBar } from './read-bar.ts';
import { DEFAULT_LEGS } from './read-word.ts';
import type { Sounding } from './sounding.ts';

/**
 * What each bar of a chart means where it stands, by bar id: `%` and carried chords resolved, metre and key
 * words in force to the end of their section. Computed once for a chart object.
 *
 * `"tacet 8"` is one bar here, of one bar's pulses, with a mark of eight bars: who unrolls the form plays it
 * eight times.
 */
export const readBars = (
  chart: Chart,
): { readonly music: ReadonlyMap<string, BarMusic>; readonly problems: Problem[] } => {
  const { music, found } = resolveBars(chart);
  return { music, problems: found.map(({ at: _, ...problem }) => problem) };
};

interface BarsResolved {
  readonly music: ReadonlyMap<string, BarMusic>;
  readonly found: readonly Found[];
}

const resolved = new WeakMap<Chart, BarsResolved>();

/** As `readBars`, with the part of the bar that each problem is at. */
export const resolveBars = (chart: Chart): BarsResolved => {
  const known = resolved.get(chart);
  if (known) return known;
  const fresh = resolveSections(chart);
  resolved.set(chart, fresh);
  return fresh;
};

const resolveSections = (chart: Chart): BarsResolved => {
  const music = new Map<string, BarMusic>();
  const found: Found[] = [];
  const legs = chart.road.length > 0 ? chart.road.map(({ name }) => name) : DEFAULT_LEGS;
  let sounding: Sounding | null = null;
  for (const { bars } of chart.sections) {
    let metre = metreOf(chart);
    let key = keyTextOf(chart);
    const endings = new EndingWatch();
    const read: BarMusic[] = [];
    bars.forEach((bar, index) => {
      sounding = endings.enter(bar, index, sounding);
      const result: BarRead = readBar(bar, {
        metre,
        key,
        legs,
        sounding,
        isFirst: index === 0,
        barBack: (barsBack) => (index - barsBack >= endings.floor ? (read[index - barsBack] ?? null) : null),
      });
      ({ metre, key } = result.music);
      sounding = result.sounding;
      endings.leave(bar);
      read.push(result.music);
      music.set(bar.id, result.music);
      found.push(...result.found);
    });
    found.push(...loneDoubleRepeats(bars, read));
  }
  return { music, found };
};

/**
 * Follows the endings of a section: `%` doesn't look past the start of its ending, and the chord that goes on into
 * a second ending is that before the first.
 */
class EndingWatch {
  /** Index of the first bar that `%` may look back to. */
  floor = 0;
  private isInside = false;
  private isGroupOpen = false;
  private atGroup: Sounding | null = null;

  /** What sounds before the bar, as played. */
  enter(bar: Bar, index: number, sounding: Sounding | null): Sounding | null {
    if (bar.ending === '') {
      if (!this.isInside) {
        this.isGroupOpen = false;
        this.floor = 0;
      }
      return sounding;
    }
    if (!this.isGroupOpen || bar.left !== '') this.atGroup = sounding;
    this.isInside = true;
    this.isGroupOpen = true;
    this.floor = index;
    return this.atGroup;
  }

  leave(bar: Bar): void {
    if (bar.right !== '') this.isInside = false;
  }
}

/** `%%` spans two bars and is written in both. */
const loneDoubleRepeats = (bars: readonly Bar[], read: readonly BarMusic[]): Found[] => {
  const found: Found[] = [];
  let run = 0;
  bars.forEach((bar, index) => {
    run = read[index]?.repeats === 2 ? run + 1 : 0;
    if (run % 2 === 0 || read[index + 1]?.repeats === 2) return;
    const token = readBarText(bar.text).findIndex(({ kind }) => kind === 'repeat');
    found.push({
      id: bar.id,
      at: spotKey(bar.id, token),
      kind: 'lone-double-repeat',
      words: '“%%” repeats two bars and is written in both of them; this one stands alone.',
    });
  });
  return found;
};
