import type { BarMusic, Mark, Reach, Word } from '../../../common/chart/bar-music.ts';
import type { Bar, Chart, RoadLine } from '../../../common/chart/chart.ts';
import type { Leg, RoadBar } from '../../../common/form/road.ts';
import { unrollRoad } from '../../../common/form/unroll-road.ts';

/**
 * A chart and what its bars mean, built by hand, so that the road map is tested apart from the chart reader.
 * Music is written as bar names and signs: `|: a b |1. c :| |2. d"to coda" || e`; `$` ends the writer's line.
 * A bar's id is its name, with `'` added for a name that comes again.
 */
export const buildChart = (
  sections: Readonly<Record<string, string>>,
  road: readonly (readonly [name: string, sections: string, times?: string, words?: string])[] = [],
): { readonly chart: Chart; readonly music: ReadonlyMap<string, BarMusic> } => {
  const music = new Map<string, BarMusic>();
  const chart: Chart = {
    head: {},
    sections: Object.entries(sections).map(([label, text]) => ({
      id: `section ${label}`,
      label,
      bars: readBars(text, music),
    })),
    road: road.map(
      ([name, text, times = '', words = '']): RoadLine => ({
        id: `line ${name}`,
        name,
        sections: text,
        times,
        words,
      }),
    ),
    lines: [],
  };
  return { chart, music };
};

const readBars = (text: string, music: Map<string, BarMusic>): Bar[] => {
  const bars: Bar[] = [];
  let left = '';
  let ending = '';
  const changeLast = (change: Partial<Bar>) => {
    const last = bars.pop();
    if (!last) throw new Error(`a sign without a bar before it in ${text}`);
    bars.push({ ...last, ...change });
  };
  for (const token of text.match(/[^\s"]+(?:"[^"]*")*/g) ?? []) {
    if (token === '|:') left = '|:';
    else if (/^\|(\d+\.)+$/.test(token)) ending = token.slice(1);
    else if (token === '$') changeLast({ lineEnd: true });
    else if (token === '||' || token === '|]' || token.startsWith(':|')) changeLast({ right: token });
    else if (token !== '|') {
      let id = /^[^"]*/.exec(token)?.[0] ?? '';
      while (music.has(id)) id += "'";
      bars.push({ id, text: token, left, right: '', ending, lineEnd: false });
      music.set(id, musicOf([...token.matchAll(/"([^"]*)"/g)].map((match) => match[1] ?? '')));
      left = '';
      ending = '';
    }
  }
  return bars;
};

const musicOf = (texts: readonly string[]): BarMusic => {
  const words = texts.map(wordOf);
  const pickUp = words.some(({ mark }) => mark?.kind === 'pickUp');
  const metre = { text: '4/4', upper: 4, lower: 4, pulses: 4, groups: [4], compound: false };
  return { metre, pulses: pickUp ? 1 : 4, pickUp, cells: [], words, key: '' };
};

const wordOf = (text: string): Word => {
  const [, reachText = '', plain = ''] = /^(?:([^:]*):)?\s*(.*)$/.exec(text) ?? [];
  const [name = '', figure = ''] = plain.split(' ');
  const kinds: Readonly<Record<string, Mark>> = {
    tacet: { kind: 'tacet', bars: Number(figure) },
    tempo: { kind: 'tempo', bpm: Number(figure) },
    break: { kind: 'break', bars: Number(figure) },
    'pick-up': { kind: 'pickUp' },
    segno: { kind: 'segno' },
    to: { kind: 'toCoda' },
    hold: { kind: 'hold' },
  };
  const mark = kinds[name];
  const only = /^(\d+)(?:st|nd|rd|th) x/.exec(reachText);
  const reach: Reach | null =
    reachText === ''
      ? null
      : only
        ? { only: Number(only[1]) }
        : reachText === 'last x'
          ? { last: true }
          : { leg: reachText };
  return { text: plain, atPulse: 0, ...(mark ? { mark } : {}), ...(reach ? { reach } : {}) };
};

/** The bars' ids in order, as one line. */
export const barsOf = (bars: readonly RoadBar[] | undefined): string =>
  (bars ?? []).map(({ id }) => id).join(' ');

/** All that is played, leg after leg, with open legs and vamps played twice. */
export const playedBars = (legs: readonly Leg[]): string =>
  legs
    .flatMap(({ bars, lastBars = bars, passes }) => {
      const times = typeof passes === 'number' ? passes : 2;
      return [...Array.from({ length: times - 1 }, () => barsOf(bars)), barsOf(lastBars)];
    })
    .join(' ');

export const unrollBuilt = (...built: Parameters<typeof buildChart>) => {
  const { chart, music } = buildChart(...built);
  return unrollRoad(chart, music);
};

/** What one section's music sounds like, played once. */
export const playedOnce = (text: string): string =>
  playedBars(unrollBuilt({ A: text }, [['Head', 'A']]).legs);
