import { Progression } from 'tonal';
import { readBars } from '../../common/chart/read-bars.ts';
import { readChart } from '../../common/chart/read-chart.ts';
import { DEMO_BAND } from '../../common/demo/demo-band.ts';
import { lostSpots } from '../../common/form/lost-spots/lost-spots.ts';
import { roadHarmony } from '../../common/form/road-harmony.ts';
import { unroll } from '../../common/form/unroll.ts';
import { bassNotes } from '../../common/theory/harmony/bass-notes.ts';
import { guideTones } from '../../common/theory/harmony/guide-tones.ts';
import { scaleChoices } from '../../common/theory/harmony/scale-choice.ts';
import type { Print } from './main.ts';

const GOAL_MS = 5;
const RUNS = 300;

/** Sixty-four bars, two chords in each, through five keys: as much as a chart ever has. */
const BUSY = `title: Busy
key: Ab
${['A', 'B', 'C', 'D']
  .map(
    (label) => `[${label}]
| Abmaj7 Fm7 | Bbm7 Eb7 | Cm7b5 F7b9 | Bbm7 Eb7alt |
| Dm7 G7 | Cmaj7 Am7 | F#m7b5 B7 | Emaj7 C#m7 |
| Am7 D7 | Gmaj7 G#dim7 | Am7 Abm7 | Gm7 C7 |
| Fm7 Bb7 | Ebm7 Ab7 | Dbmaj7 Gb7 | ${label === 'D' ? 'Bbm7 Eb7' : 'Abmaj7 Eb7'} |`,
  )
  .join('\n')}
`;

const timesOf = (work: () => unknown): { readonly firstMs: number; readonly medianMs: number } => {
  const times = Array.from({ length: RUNS }, () => {
    const from = performance.now();
    work();
    return performance.now() - from;
  });
  const [firstMs = Number.NaN] = times;
  const medianMs = [...times].sort((a, b) => a - b)[RUNS / 2] ?? Number.NaN;
  return { firstMs, medianMs };
};

const ms = (value: number): string => `${value.toFixed(2)} ms`;

/**
 * How long the analysis of a chart takes, against tonal's Roman numerals (names of degrees, chord by chord, without any
 * analysis) of the same chords in the same run.
 */
export const run = (print: Print): void => {
  const charts = [{ id: 'busy: 64 bars, 128 chords', text: BUSY }, ...DEMO_BAND.charts];
  const medians: number[] = [];
  for (const { id, text } of charts) {
    const { chart } = readChart(text);
    readBars(chart);
    const { road } = unroll(chart);
    const { firstMs, medianMs } = timesOf(() => roadHarmony(road));
    medians.push(medianMs);
    const chords = roadHarmony(road).flatMap(({ pass }) => pass.chords);
    const tonic = /^[A-G][b#]?/.exec(road.key)?.[0] ?? 'C';
    const baseline = timesOf(() =>
      Progression.toRomanNumerals(
        tonic,
        chords.map(({ symbol }) => symbol.typed),
      ),
    );
    print(
      `${id}: all legs ${ms(medianMs)}, the first time ${ms(firstMs)}; ` +
        `baseline tonal 6.4.3 toRomanNumerals ${ms(baseline.medianMs)}, ratio ${(medianMs / baseline.medianMs).toFixed(2)}`,
    );
    if (text !== BUSY) continue;
    const [first] = roadHarmony(road);
    const pass = first?.pass.chords ?? [];
    const symbols = pass.map(({ symbol }) => symbol);
    print(`  guide tones, ${symbols.length} chords: ${ms(timesOf(() => guideTones(symbols)).medianMs)}`);
    const scales = timesOf(() => pass.map(({ symbol, analysis }) => scaleChoices(symbol, analysis)));
    print(`  scale choices, all chords: ${ms(scales.medianMs)}`);
    const bass = timesOf(() =>
      pass.map(({ symbol, analysis }, i) => bassNotes(symbol, symbols[i + 1] ?? null, analysis.key)),
    );
    print(`  bass notes, all chords: ${ms(bass.medianMs)}`);
    print(`  lost spots of the road: ${ms(timesOf(() => lostSpots(road)).medianMs)}`);
  }
  const worst = Math.max(...medians);
  print(`goal: ${GOAL_MS} ms a chart; the slowest ${ms(worst)} ${worst <= GOAL_MS ? '(met)' : '(MISSED)'}`);
};
