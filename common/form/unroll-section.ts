import type { Bar } from '../chart/chart.ts';
import { findRepeats, type Repeat } from './find-repeats.ts';

/** One bar as it comes in playing order. */
export interface Step {
  /** Index of the bar in its section, from 0. */
  readonly bar: number;
  /** Which time through the repeat around the bar, from 1, and how many there are; absent outside repeats. */
  readonly x?: number;
  readonly ofX?: number;
}

/** Nobody plays a section of more bars than this; a slip of the finger (`:|x9999`) must not fill the memory. */
export const MOST_BARS = 4000;

/**
 * The bars of a section in the order in which they are played, repeats and endings taken.
 * @param repeats 'once': every repeat is played once only, as on its last time: with its last ending. That is
 *   how a section is played after D.S. or D.C.
 * Example: `|: 1 | 2 |1. 3 :| |2. 4 | 5` gives the bars 1 2 3 1 2 4 5.
 */
export const unrollSection = (bars: readonly Bar[], repeats: 'all' | 'once' = 'all'): Step[] => {
  const found = findRepeats(bars);
  const outerFirst = [...found].reverse();
  const firstTime = (repeat: Repeat) => (repeats === 'all' ? 1 : repeat.times);
  const time = new Map<Repeat, number>(found.map((repeat) => [repeat, firstTime(repeat)]));
  const timeOf = (repeat: Repeat) => time.get(repeat) ?? 1;
  const steps: Step[] = [];

  /**
   * Where to go after the bar `at`: the innermost repeat that ends there decides.
   * @param from leaves out the repeats inside this one: they were skipped
   */
  const goOnFrom = (at: number, from = 0): number => {
    let end = at;
    for (const repeat of found.slice(from)) {
      const endsHere = repeat.end === end || (end >= repeat.start && endingAt(repeat, end)?.to === end);
      if (!endsHere) continue;
      if (timeOf(repeat) < repeat.times) {
        time.set(repeat, timeOf(repeat) + 1);
        for (const inner of found) if (isInside(inner, repeat)) time.set(inner, firstTime(inner));
        return repeat.start;
      }
      time.set(repeat, firstTime(repeat));
      end = repeat.end;
    }
    return end + 1;
  };

  let at = 0;
  for (let moves = 0; at < bars.length && steps.length < MOST_BARS && moves < 2 * MOST_BARS; moves++) {
    const here = at;
    const wrong = outerFirst.find((repeat) => startsWrongEnding(repeat, here, timeOf(repeat)));
    if (wrong) {
      const right = endingFor(wrong, timeOf(wrong));
      // Without an ending for this time the repeat is over: what follows the brackets comes next.
      at = right ? right.from : goOnFrom(wrong.end, found.indexOf(wrong));
      continue;
    }
    const around = found.find((repeat) => repeat.start <= here && here <= repeat.end);
    steps.push(around ? { bar: here, x: timeOf(around), ofX: around.times } : { bar: here });
    at = goOnFrom(here);
  }
  return steps;
};

const isInside = (inner: Repeat, outer: Repeat): boolean =>
  inner !== outer && inner.start >= outer.start && inner.end <= outer.end;

const endingAt = (repeat: Repeat, at: number) =>
  repeat.endings.find((ending) => ending.from <= at && at <= ending.to);

const startsWrongEnding = (repeat: Repeat, at: number, time: number): boolean => {
  const ending = repeat.endings.find(({ from }) => from === at);
  return ending !== undefined && endingFor(repeat, time) !== ending;
};

/**
 * The ending for a time through. The last time takes the ending with the highest number. A time that no bracket
 * names takes the nearest bracket below it that goes back: `|1. :|x3 |2.` is 1, 1, 2 (so also LilyPond
 * 2.24, "Notation Reference", Repeats: the first alternative fills up missing ones).
 */
const endingFor = (repeat: Repeat, time: number) => {
  const highest = repeat.endings.reduce(
    (best, ending) => (Math.max(...ending.numbers) > Math.max(...best.numbers) ? ending : best),
    repeat.endings[0] ?? { from: 0, to: 0, numbers: [0], goesBack: false },
  );
  if (time === repeat.times) return repeat.leftOutLast ? undefined : highest;
  const goBack = repeat.endings.filter((ending) => ending !== highest || ending.goesBack);
  const named = goBack.find((ending) => ending.numbers.includes(time));
  if (named) return named;
  const below = goBack.filter((ending) => Math.min(...ending.numbers) <= time);
  return below.at(-1) ?? goBack[0];
};
