import fc from 'fast-check';
import { bandEvents } from '../../../common/band/band-events.ts';
import { type BandSettings, plainBand } from '../../../common/band/band-settings.ts';
import type { NoteEvent, Voice } from '../../../common/band/note-event.ts';
import { readChart } from '../../../common/chart/read-chart.ts';
import type { Road, RoadBar } from '../../../common/form/road.ts';
import { unroll } from '../../../common/form/unroll.ts';
import { type Performance, perform } from '../../../common/stage/perform.ts';
import type { ComingBar } from '../../../common/stage/place.ts';
import { barsAround } from '../../../common/stage/upcoming.ts';
import { someRoad } from '../stage/support-random.ts';
import { allBars } from '../stage/support-read.ts';
import { type Calls, START, take } from '../stage/support-road.ts';

/** A chart at 120, counted in by one bar, played as it is written: the head once, unless a road is given. */
export const chart = (music: string, { head = '', road = 'Head: A' } = {}): Road => {
  const { chart: read } = readChart(`tempo: 120\ncount: 1\n${head}\n[A]\n${music}\n\nroad:\n  ${road}\n`);
  return unroll(read).road;
};

export interface Played {
  readonly performance: Performance;
  readonly band: BandSettings;
}

/** The road counted in at 0, with what is called then. */
export const played = (
  road: Road,
  { feel = 'swing', calls = [], ...more }: Partial<BandSettings> & { calls?: Calls } = {},
): Played => ({
  performance: perform(take(road, [[0, START], ...calls])),
  band: { ...plainBand(feel, 3), ...more },
});

/** All that sounds up to an instant. */
export const allEvents = ({ performance, band }: Played, untilMs = 600_000): NoteEvent[] =>
  bandEvents(performance, band, Number.NEGATIVE_INFINITY, untilMs);

/** What sounds in the bar with that index through the take. */
export const eventsOfBar = ({ performance, band }: Played, index: number): NoteEvent[] => {
  const { startMs, endMs } = barTimes(performance, index);
  return bandEvents(performance, band, startMs, endMs);
};

export const barTimes = (performance: Performance, index: number): { startMs: number; endMs: number } => {
  const bars = allBars(performance, index + 2);
  const startMs = bars[index]?.startMs ?? Number.NaN;
  return { startMs, endMs: bars[index + 1]?.startMs ?? startMs + 60_000 };
};

/** Where in its bar (pulses of 500 ms, to a thousandth) a voice plays, each place once. */
export const placesOf = (events: readonly NoteEvent[], voice: Voice, fromMs: number): number[] => [
  ...new Set(
    events.filter((event) => event.voice === voice).map(({ atMs }) => Math.round((atMs - fromMs) * 2) / 1000),
  ),
];

/** Places in a bar by voice. */
export const inBar = (one: Played, index: number, voice: Voice): number[] =>
  placesOf(eventsOfBar(one, index), voice, barTimes(one.performance, index).startMs);

export const pitches = (events: readonly NoteEvent[], voice: Voice): number[] =>
  events.filter((event) => event.voice === voice).map(({ midi }) => midi);

const SYMBOLS = [
  'C7',
  'Fmaj7',
  'Am7b5',
  'D7alt',
  'Gm9',
  'Eb13',
  'F#dim7',
  'Bb/D',
  'Csus4',
  'E5',
  'Ab+',
  'H?',
];
const FEELS = [
  'swing',
  'straight 8ths',
  'straight 16ths',
  'shuffle',
  'bossa',
  'latin',
  'funk',
  'ballad',
  'waltz',
];

const dressed = (bar: RoadBar, dice: () => number): RoadBar => {
  const { music } = bar.content;
  const cells = music.cells.map((cell) => {
    const kind = dice() < 0.1 ? 'rest' : dice() < 0.1 ? 'noChord' : cell.kind;
    const symbol = kind === 'chord' ? (SYMBOLS[Math.floor(dice() * SYMBOLS.length)] ?? 'C7') : '';
    return { ...cell, kind: symbol === 'H?' ? ('unknown' as const) : kind, symbol, pushed: dice() < 0.2 };
  });
  const lower = dice() < 0.15 ? 8 : 4;
  const metre = { ...music.metre, lower, text: `${music.metre.upper}/${lower}` };
  return { ...bar, content: { ...bar.content, music: { ...music, cells, metre } } };
};

/** Any road with any chords, pushes, rests and N.C. in its bars; a bar that comes again is the same. */
export const someBandRoad: fc.Arbitrary<Road> = fc
  .tuple(someRoad, fc.infiniteStream(fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true })))
  .map(([road, stream]) => {
    const dice = () => (stream.next().value as number | undefined) ?? 0;
    const known = new Map<RoadBar, RoadBar>();
    const dress = (bar: RoadBar): RoadBar => {
      const again = known.get(bar) ?? dressed(bar, dice);
      known.set(bar, again);
      return again;
    };
    return {
      ...road,
      legs: road.legs.map((leg) => ({
        ...leg,
        bars: leg.bars.map(dress),
        ...(leg.lastBars ? { lastBars: leg.lastBars.map(dress) } : {}),
      })),
    };
  });

export const someFeel = fc.constantFrom(...FEELS);

/** The bars that begin by an instant. */
export const barsBy = (performance: Performance, tMs: number): readonly ComingBar[] =>
  barsAround(performance, tMs, 10_000, 0).bars.filter(({ startMs }) => startMs <= tMs);
