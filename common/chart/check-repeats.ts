import { endingNumbers, repeatTimes } from './bar-signs.ts';
import type { Bar } from './chart.ts';
import { type Found, spotKey } from './found.ts';
import { ordinal } from './read-word.ts';

const MOST_TIMES = 99;

/** What is wrong with the repeats and endings of a section. */
export const checkRepeats = (bars: readonly Bar[]): Found[] => [
  ...unclosedRepeats(bars),
  ...oddTimes(bars),
  ...endingGroups(bars).flatMap(checkEndings),
];

/** A `|:` needs its `:|` inside the section. */
const unclosedRepeats = (bars: readonly Bar[]): Found[] => {
  let open: Bar[] = [];
  for (const bar of bars) {
    if (bar.left === '|:') open.push(bar);
    if (bar.right.startsWith(':|')) open = open.slice(0, -1);
  }
  return open.map(({ id }) => ({
    id,
    at: spotKey(id, 'left'),
    kind: 'unclosed-repeat',
    words:
      'This repeat is not closed by “:|” before its section ends; a repeat never goes over the end of a section.',
  }));
};

const oddTimes = (bars: readonly Bar[]): Found[] =>
  bars.flatMap(({ id, right }): Found[] => {
    const times = repeatTimes(right);
    if (times === null || (times >= 2 && times <= MOST_TIMES)) return [];
    return [
      {
        id,
        at: spotKey(id, 'right'),
        kind: 'repeat-times',
        words: `A repeat is played 2 to ${MOST_TIMES} times in all, not ${times}.`,
        suggestion: times < 2 ? ':|' : `:|x${MOST_TIMES}`,
      },
    ];
  });

interface Ending {
  readonly bar: Bar;
  readonly numbers: readonly number[];
  goesBack: boolean;
}

/**
 * Endings that belong to one repeat. An ending lasts to `:|`, the next ending, `||`, `|]` or the section's end;
 * one that begins right there belongs to the same repeat, but for a `|:` at it.
 */
const endingGroups = (bars: readonly Bar[]): Ending[][] => {
  const groups: Ending[][] = [];
  let group: Ending[] | null = null;
  let isInside = false;
  for (const bar of bars) {
    if (bar.left === '|:' || (bar.ending === '' && !isInside)) group = null;
    if (bar.ending !== '') {
      if (!group) {
        group = [];
        groups.push(group);
      }
      group.push({ bar, numbers: endingNumbers(bar.ending), goesBack: false });
      isInside = true;
    }
    if (bar.right.startsWith(':|')) {
      const ending = isInside ? group?.at(-1) : undefined;
      if (ending) ending.goesBack = true;
    }
    if (bar.right !== '') isInside = false;
  }
  return groups;
};

const checkEndings = (group: readonly Ending[]): Found[] => {
  const found: Found[] = [];
  const report = ({ bar }: Ending, kind: string, words: string, suggestion?: string) =>
    found.push({
      id: bar.id,
      at: spotKey(bar.id, 'ending'),
      kind,
      words,
      ...(suggestion === undefined ? {} : { suggestion }),
    });
  const seen = new Set<number>();
  const highest = Math.max(...group.flatMap(({ numbers }) => numbers));
  for (const ending of group) {
    const again = ending.numbers.find(
      (number, index) => seen.has(number) || ending.numbers.indexOf(number) < index,
    );
    for (const number of ending.numbers) seen.add(number);
    if (again === undefined) continue;
    const next = Math.max(...seen) + 1;
    report(
      ending,
      'ending-twice',
      `This repeat has a ${ordinal(again)} ending already; every number comes once.`,
      `|${next}.`,
    );
  }
  const missing = Array.from({ length: highest }, (_, index) => index + 1).find(
    (number) => !seen.has(number),
  );
  const [first] = group;
  if (first && (missing !== undefined || seen.has(0))) {
    const after = group.find(({ numbers }) => numbers.some((number) => number > (missing ?? -1))) ?? first;
    report(
      seen.has(0) ? (group.find(({ numbers }) => numbers.includes(0)) ?? first) : after,
      'ending-missing',
      seen.has(0) ? 'Endings are numbered from 1.' : `This repeat has no ${ordinal(missing ?? 1)} ending.`,
    );
  }
  group.forEach((ending, index) => {
    const isLast = index === group.length - 1;
    if (ending.goesBack || (isLast && index > 0)) return;
    report(
      ending,
      'ending-without-repeat',
      `Nothing goes back from this ${ordinal(ending.numbers[0] ?? 1)} ending: it needs “:|” at its end.`,
    );
  });
  return found;
};
