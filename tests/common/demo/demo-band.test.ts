import { describe, expect, it } from 'vitest';
import { readBars } from '../../../common/chart/read-bars.ts';
import { readChart } from '../../../common/chart/read-chart.ts';
import { DEMO_BAND } from '../../../common/demo/demo-band.ts';
import type { Leg, RoadBar } from '../../../common/form/road.ts';
import { unroll } from '../../../common/form/unroll.ts';
import { instrumentById } from '../../../common/theory/instruments.ts';

const tunes = DEMO_BAND.charts.map(({ id, text }) => {
  const { chart, problems } = readChart(text);
  const unrolled = unroll(chart);
  const { road } = unrolled;
  const head = road.legs.find(({ name }) => name === 'Head') as Leg;
  return {
    id,
    chart,
    problems: [...problems, ...unrolled.problems],
    road,
    head,
    music: readBars(chart).music,
  };
});
type Tune = (typeof tunes)[number];

/** The chords of a bar as they sound, `%` and carried chords resolved. */
const chordsOf = ({ content }: RoadBar): string => content.music.cells.map(({ symbol }) => symbol).join(' ');
const rootsOf = (bars: readonly RoadBar[]) => bars.map((bar) => /^[A-G][b#]?/.exec(chordsOf(bar))?.[0] ?? '');
const marksOf = ({ road }: Tune) => road.legs.flatMap(({ bars }) => bars.flatMap(({ marks }) => marks));
const hasMark = (kind: string) => (tune: Tune) => marksOf(tune).some(({ mark }) => mark.kind === kind);

/** Begins on the tonic, reaches the fourth in bar 5: a blues of any length. */
const isBlues = ({ head, chart }: Tune, length: number): boolean => {
  const [tonic = ''] = (chart.head.key ?? '').split(' ');
  const fourth: Readonly<Record<string, string>> = {
    F: 'Bb',
    Eb: 'Ab',
    C: 'F',
    G: 'C',
    Bb: 'Eb',
    Ab: 'Db',
    D: 'G',
  };
  const roots = rootsOf(head.bars);
  return (
    /blues/.test(chart.head.key ?? '') &&
    head.bars.length === length &&
    roots[0] === tonic &&
    roots[4] === fourth[tonic]
  );
};

/** Thirty-two bars of which the first, second and last eight begin alike and the third don't. */
const isAABA = ({ head }: Tune): boolean => {
  const chords = head.bars.map(chordsOf);
  const opening = (from: number) => chords.slice(from, from + 6).join(' | ');
  return (
    chords.length === 32 &&
    opening(0) === opening(8) &&
    opening(0) === opening(24) &&
    opening(0) !== opening(16)
  );
};

/** The longest row of bars of one chord that goes from the end of a chorus into the next. */
const barsOverTheTop = ({ head: { bars } }: Tune): number => {
  const [first = ''] = bars.map(chordsOf);
  const same = (row: readonly RoadBar[]) => {
    const other = row.findIndex((bar) => chordsOf(bar) !== first);
    return other === -1 ? row.length : other;
  };
  return same(bars) + same([...bars].reverse());
};

const isIn = (upper: number, lower: number) => (tune: Tune) =>
  tune.head.bars.some(
    ({ content }) => content.music.metre.upper === upper && content.music.metre.lower === lower,
  );

const features: Readonly<Record<string, (tune: Tune) => boolean>> = {
  'a blues of twelve bars': (tune) => isBlues(tune, 12),
  'a blues of sixteen bars': (tune) => isBlues(tune, 16),
  'thirty-two bars, A A B A': isAABA,
  'first and second endings': ({ chart }) =>
    chart.sections.some(({ bars }) =>
      ['1.', '2.'].every((number) => bars.some(({ ending }) => ending === number)),
    ),
  'a vamp': ({ road }) => road.legs.some(({ passes }) => passes === 'vamp'),
  'a break': hasMark('break'),
  'an odd metre': (tune) => isIn(5, 4)(tune) || isIn(7, 4)(tune),
  'six-eight': isIn(6, 8),
  'a pick-up bar': ({ road }) => road.legs.some(({ pickUp }) => pickUp !== undefined),
  'a key change': hasMark('key'),
  'a tag': ({ road }) => road.legs.some(({ tag }) => tag !== undefined),
  'a Coda': ({ road }) => road.legs.some(({ lastBars }) => lastBars !== undefined),
  'fours with the drums': ({ road }) => road.legs.some(({ trade }) => trade === 4),
  'a tempo change': hasMark('tempo'),
  'one chord for eight bars and more over the top of the form': (tune) => barsOverTheTop(tune) >= 8,
};

describe('the demo band', () => {
  it('is five people at five instruments that are known', () => {
    expect(DEMO_BAND.members).toHaveLength(5);
    for (const { part } of DEMO_BAND.members) expect(instrumentById(part)?.id).toBe(part);
    const ids = DEMO_BAND.charts.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  for (const tune of tunes) {
    it(`plays ${tune.id}, in which nothing is amiss`, () => {
      expect(tune.problems).toEqual([]);
      expect(tune.chart.lines).toEqual([]);
      expect(tune.chart.head.title).toBeTruthy();
      expect(tune.road.legs.length).toBe(tune.chart.road.length);
      const cells = [...tune.music.values()].flatMap((bar) => bar.cells);
      expect(cells.filter(({ kind }) => kind === 'unknown')).toEqual([]);
      const played = new Set(
        tune.road.legs.flatMap(({ bars, lastBars = [], pickUp }) =>
          [...bars, ...lastBars, ...(pickUp ? [pickUp] : [])].map(({ id }) => id),
        ),
      );
      const written = tune.chart.sections.flatMap(({ bars }) => bars.map(({ id }) => id));
      expect(written.filter((id) => !played.has(id))).toEqual([]);
    });
  }

  for (const [name, occursIn] of Object.entries(features)) {
    it(`has a tune with ${name}`, () => {
      expect(tunes.filter(occursIn).map(({ id }) => id)).not.toEqual([]);
    });
  }
});
