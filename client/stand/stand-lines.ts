import type { ComingBar } from '../../common/stage/place.ts';
import { passWords } from './place-words.ts';

/** A line as the stand shows it: a line of the chart, or a part of one that is too long for the screen. */
export interface StandLine {
  readonly key: string;
  readonly bars: readonly ComingBar[];
  /** Rehearsal letter of its first bar. */
  readonly letter?: string;
  /** It begins another leg (its name) or another pass (which one). */
  readonly heading?: string;
  /** The heading names a leg, not just another pass. */
  readonly newLeg: boolean;
}

/** One bar at one time: different for every pass, and when the same count of bars means another place. */
export const barKey = ({ index, place, bar }: ComingBar): string =>
  `${index}.${place.leg}.${place.pass}.${place.barIndex}.${bar.id}`;

/** Whether two lines look alike: what is drawn for one stands for the other. */
export const sameLine = (a: StandLine, b: StandLine): boolean =>
  a.key === b.key &&
  a.heading === b.heading &&
  a.letter === b.letter &&
  a.newLeg === b.newLeg &&
  a.bars.length === b.bars.length &&
  a.bars.every((bar, at) => sameBar(bar, b.bars[at]));

const sameBar = (a: ComingBar, b: ComingBar | undefined): boolean =>
  b !== undefined &&
  a.bar === b.bar &&
  barKey(a) === barKey(b) &&
  a.leg.name === b.leg.name &&
  a.out === b.out &&
  a.outBarsLeft === b.outBarsLeft &&
  a.semitones === b.semitones &&
  a.stopTime === b.stopTime;

const joins = (bar: ComingBar, next: ComingBar): boolean =>
  !bar.bar.content.lineEnd &&
  bar.place.leg === next.place.leg &&
  bar.place.pass === next.place.pass &&
  next.place.barIndex === bar.place.barIndex + 1;

/** Splits where the writer's line ends, and where the road goes somewhere else: another leg, another pass, a jump. */
export const splitLines = (bars: readonly ComingBar[]): ComingBar[][] => {
  const lines: ComingBar[][] = [];
  for (const bar of bars) {
    const line = lines.at(-1);
    const last = line?.at(-1);
    if (line !== undefined && last !== undefined && joins(last, bar)) line.push(bar);
    else lines.push([bar]);
  }
  return lines;
};

/**
 * A line of more than `maxBars` bars in parts as equal as can be, long ones first. A pick-up is no bar.
 * @example foldLine(eightBars, 5) // four and four
 */
export const foldLine = <Bar extends { readonly place: { readonly barIndex: number } }>(
  line: readonly Bar[],
  maxBars: number,
): Bar[][] => {
  const whole = line.filter((bar) => bar.place.barIndex >= 0).length;
  const rows = Math.ceil(whole / Math.max(1, maxBars));
  if (rows <= 1) return [[...line]];
  const perRow = Math.ceil(whole / rows);
  const folded: Bar[][] = [[]];
  let inRow = 0;
  for (const bar of line) {
    if (inRow === perRow) {
      folded.push([]);
      inRow = 0;
    }
    folded.at(-1)?.push(bar);
    if (bar.place.barIndex >= 0) inRow += 1;
  }
  return folded;
};

const headingOf = (bar: ComingBar, before: ComingBar | undefined): Pick<StandLine, 'heading' | 'newLeg'> => {
  if (
    before === undefined ? bar.place.barIndex <= 0 || bar.index === 0 : before.place.leg !== bar.place.leg
  ) {
    return { heading: bar.leg.name, newLeg: true };
  }
  if (before !== undefined && before.place.pass !== bar.place.pass) {
    const words = passWords(bar.leg, bar.place.pass, bar.passes);
    return words === '' ? { newLeg: false } : { heading: words, newLeg: false };
  }
  return { newLeg: false };
};

/**
 * The lines that these bars make. The first may be the end of a line whose beginning is not among the bars.
 * @param bars consecutive bars, as `barsAround` gives them
 * @param needsLine a bar that needs so much room that the bars of its line have a line each
 */
export const standLines = (
  bars: readonly ComingBar[],
  maxBars: number,
  needsLine: (bar: ComingBar) => boolean = () => false,
): StandLine[] => {
  const lines: StandLine[] = [];
  let before: ComingBar | undefined;
  for (const line of splitLines(bars)) {
    for (const row of foldLine(line, line.some(needsLine) ? 1 : maxBars)) {
      const first = row[0];
      const last = row.at(-1);
      if (first === undefined || last === undefined) continue;
      const letter = first.bar.content.letter;
      lines.push({
        key: barKey(first),
        bars: row,
        ...headingOf(first, before),
        ...(letter === undefined || letter === '' ? {} : { letter }),
      });
      before = last;
    }
  }
  return lines;
};

/** What part a line plays on the stand. Lines `far` away are drawn already but not seen. */
export type LineRole = 'gone' | 'past' | 'now' | 'next' | 'later' | 'far';

const ROLES: readonly LineRole[] = ['past', 'now', 'next', 'later'];

/** @param distance lines after the one being played; in the count-in, the first line is 1 */
export const roleOf = (distance: number): LineRole =>
  distance < -1 ? 'gone' : (ROLES[distance + 1] ?? 'far');

/** How many lines after the one being played are drawn ahead, so that rolling needs nothing new. */
export const DRAWN_AHEAD = 3;

export interface RollLine extends StandLine {
  /** Lines after the one being played. */
  readonly distance: number;
}

/**
 * The lines the roll draws: one before, the one being played, and those ahead.
 * @param nowIndex index (`ComingBar.index`) of the bar being played, or null before the first
 */
export const rollLines = (lines: readonly StandLine[], nowIndex: number | null): RollLine[] => {
  const at =
    nowIndex === null ? -1 : lines.findIndex((line) => line.bars.some((bar) => bar.index === nowIndex));
  return lines
    .map((line, index) => ({ ...line, distance: index - at }))
    .filter((line) => line.distance >= -1 && line.distance <= DRAWN_AHEAD);
};
