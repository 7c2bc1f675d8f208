import type { Bar } from '../chart/chart.ts';

/** A stretch of bars that is played more than once. Bar indices are from 0 in the section, ends included. */
export interface Repeat {
  readonly start: number;
  readonly end: number;
  /** How often in all, 1 or more. */
  readonly times: number;
  readonly endings: readonly Ending[];
  /** The last time goes past the brackets: a first ending that no second one follows. */
  readonly leftOutLast: boolean;
}

export interface Ending {
  readonly from: number;
  readonly to: number;
  readonly numbers: readonly number[];
  /** Closed by `:|`. An ending that isn't can only go back because a later time is still to come. */
  readonly goesBack: boolean;
}

/** A repeat that is being read: begun by `|:`, or by an ending without one. */
interface Open {
  readonly start: number;
  readonly endings: Ending[];
  /** The ending being read. */
  ending: { readonly from: number; readonly numbers: readonly number[] } | null;
  times: number | null;
}

const MOST_TIMES = 999;

/** `:|` twice, `:|x3` three times; null where the sign does not go back. */
export const timesOfSign = (right: string): number | null => {
  const sign = /^:\|(?:x(\d+))?$/.exec(right);
  if (!sign) return null;
  return sign[1] === undefined ? 2 : Math.min(Math.max(1, Number(sign[1])), MOST_TIMES);
};

/** '1.2.' gives [1, 2]. */
export const numbersOfEnding = (ending: string): number[] =>
  [...ending.matchAll(/\d+/g)].map(([digits]) => Math.min(Number(digits), MOST_TIMES));

/**
 * The repeats of a section, inner ones before those around them.
 *
 * `:|` goes back to the innermost `|:` still open; without one to the start of the section or to the last `:|`.
 * An ending lasts to `:|`, the next ending, `||`, `|]` or the section's end. A `|:` that nothing closes repeats nothing.
 */
export const findRepeats = (bars: readonly Bar[]): Repeat[] => {
  const found: Repeat[] = [];
  const open: Open[] = [];
  /** The bar after the last `:|`. */
  let afterLastSign = 0;

  const isUsed = (repeat: Open, numbers: readonly number[]) =>
    [...repeat.endings, ...(repeat.ending ? [repeat.ending] : [])].some((ending) =>
      ending.numbers.some((number) => numbers.includes(number)),
    );
  const closeEnding = (repeat: Open, to: number, goesBack: boolean) => {
    if (repeat.ending) repeat.endings.push({ ...repeat.ending, to, goesBack });
    repeat.ending = null;
  };
  const finish = (end: number) => {
    const repeat = open.pop();
    if (!repeat) return;
    closeEnding(repeat, end, false);
    if (repeat.endings.length > 0) found.push(withEndings(repeat, end));
  };
  /** What follows an earlier repeat's last `:|` now belongs to a repeat of its own. */
  const cutEarlier = (start: number) => {
    found.forEach((repeat, index) => {
      if (repeat.start >= start || repeat.end < start) return;
      const endings = repeat.endings.filter(({ from }) => from < start);
      found[index] = { ...repeat, end: start - 1, endings, leftOutLast: true };
    });
  };
  const beginEnding = (at: number, numbers: readonly number[]) => {
    let top = open.at(-1);
    while (top && isUsed(top, numbers)) {
      finish(at - 1);
      top = open.at(-1);
    }
    if (!top) {
      cutEarlier(afterLastSign);
      top = { start: afterLastSign, endings: [], ending: null, times: null };
      open.push(top);
    }
    closeEnding(top, at - 1, false);
    top.ending = { from: at, numbers };
  };
  const beginRepeat = (at: number) => {
    const top = open.at(-1);
    // After a bracket that went back, a new |: begins the next repeat and isn't one inside the second ending.
    if (top?.endings.some(({ goesBack }) => goesBack)) finish(at - 1);
    open.push({ start: at, endings: [], ending: null, times: null });
  };
  const goesOnWithEnding = (repeat: Open, at: number) => {
    const numbers = numbersOfEnding(bars[at]?.ending ?? '');
    return numbers.length > 0 && !isUsed(repeat, numbers);
  };

  bars.forEach((bar, at) => {
    const numbers = numbersOfEnding(bar.ending);
    const top = open.at(-1);
    // On one bar, `|:` comes before the bracket unless the bracket goes on an open row of endings.
    const bracketFirst = numbers.length > 0 && !!top && top.endings.length > 0 && !isUsed(top, numbers);
    if (bracketFirst) beginEnding(at, numbers);
    if (bar.left === '|:') beginRepeat(at);
    if (numbers.length > 0 && !bracketFirst) beginEnding(at, numbers);

    const times = timesOfSign(bar.right);
    // A last ending needs no :|, so where a repeat around it is open the sign is meant for that one.
    const inner = open.at(-1);
    const isForOuter =
      times !== null &&
      open.length > 1 &&
      inner?.ending &&
      inner.endings.some(({ goesBack }) => goesBack) &&
      !goesOnWithEnding(inner, at + 1);
    if (isForOuter) finish(at);
    const here = open.at(-1);
    if (times !== null) {
      if (!here) {
        cutEarlier(afterLastSign);
        found.push({ start: afterLastSign, end: at, times, endings: [], leftOutLast: false });
      } else if (here.ending) {
        closeEnding(here, at, true);
        if (bar.right !== ':|') here.times = Math.max(here.times ?? 1, times);
        if (!goesOnWithEnding(here, at + 1)) finish(at);
      } else {
        open.pop();
        found.push({ start: here.start, end: at, times, endings: [], leftOutLast: false });
      }
      afterLastSign = at + 1;
    } else if (here?.ending && (bar.right === '||' || bar.right === '|]')) {
      closeEnding(here, at, false);
      if (!goesOnWithEnding(here, at + 1)) finish(at);
    }
  });
  while (open.length > 0) finish(bars.length - 1);
  return found.sort((a, b) => a.end - a.start - (b.end - b.start));
};

/**
 * As many times as the highest number says, or `xN` where that is more. A single bracket that goes back is left
 * out the last time: `|: 1 |1. 2 :| 3` is 1 2 1 3.
 */
const withEndings = ({ start, endings, times }: Open, end: number): Repeat => {
  const highest = Math.max(...endings.flatMap(({ numbers }) => numbers));
  const leftOutLast = endings.length === 1 && endings[0]?.goesBack === true;
  return { start, end, endings, leftOutLast, times: Math.max(highest + (leftOutLast ? 1 : 0), times ?? 1) };
};
