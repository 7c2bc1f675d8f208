import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { RoadBar } from '../../common/form/road.ts';
import type { Help, PassHelp } from '../../common/help/help.ts';

export interface PlottedChord extends Pick<Extract<Help, { kind: 'guide' }>, 'upper' | 'lower'> {
  /** From the beginning of the row, in bars. */
  readonly fromBars: number;
  readonly toBars: number;
}

/** A row of the plot. */
export interface GuideRow {
  /** Index in the pass. */
  readonly firstBar: number;
  readonly bars: number;
  /** As wide as the widest row, so that all rows have one scale. */
  readonly widthBars: number;
  readonly chords: readonly PlottedChord[];
  /** MIDI numbers of the lowest and the highest note of the pass. */
  readonly low: number;
  readonly high: number;
}

/** More bars side by side cannot be taken in. */
const MOST_BARS = 12;
/** A bar needs so much for the names of its notes to be read. */
const LEAST_BAR_PX = 80;

/** Bars of the plot side by side, in that width. */
export const plotBars = (widthPx: number): number =>
  Math.max(2, Math.min(MOST_BARS, Math.floor(widthPx / LEAST_BAR_PX)));

/**
 * The guide tones of a pass in rows as equal as can be; chords that have none leave a gap.
 * @param barsARow at most so many stand side by side
 */
export const guideRows = (
  bars: readonly RoadBar[],
  musicOf: (bar: RoadBar) => BarMusic,
  guides: PassHelp,
  barsARow: number = MOST_BARS,
): GuideRow[] => {
  const count = Math.max(1, Math.ceil(bars.length / barsARow));
  const widthBars = Math.ceil(bars.length / count);
  const pitches = guides.flatMap((bar) =>
    bars.length === 0
      ? []
      : bar.flatMap(({ help }) => (help.kind === 'guide' ? [help.upper.pitch, help.lower.pitch] : [])),
  );
  const [low, high] = [Math.min(...pitches), Math.max(...pitches)];
  if (pitches.length === 0) return [];
  return Array.from({ length: count }, (_, row): GuideRow => {
    const firstBar = row * widthBars;
    const inRow = bars.slice(firstBar, firstBar + widthBars);
    const chords = inRow.flatMap((bar, at) => {
      const { cells, pulses } = musicOf(bar);
      return (guides[firstBar + at] ?? []).flatMap(({ cell, help }): PlottedChord[] => {
        const held = cells[cell];
        if (help.kind !== 'guide' || held === undefined) return [];
        const fromBars = at + held.atPulse / pulses;
        return [{ ...help, fromBars, toBars: fromBars + held.lengthPulses / pulses }];
      });
    });
    return { firstBar, bars: inRow.length, widthBars, chords, low, high };
  });
};
