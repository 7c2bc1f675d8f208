import { endingNumbers, repeatTimes } from './bar-signs.ts';
import type { Bar } from './chart.ts';
import { type Found, spotKey } from './found.ts';

const MOST_TIMES = 64;

/** A row of endings that stand one after the other. */
interface Endings {
  readonly first: Bar;
  readonly numbers: Set<number>;
  repeats: boolean;
}

/** What is wrong with the repeats and endings of a section's bars. */
export const checkRepeats = (bars: readonly Bar[]): Found[] => {
  const found: Found[] = [];
  const report = (bar: Bar, part: 'left' | 'right' | 'ending', problem: Omit<Found, 'id' | 'at'>) =>
    found.push({ id: bar.id, at: spotKey(bar.id, part), ...problem });
  const notClosed = (bar: Bar, until: string) =>
    report(bar, 'left', {
      kind: 'repeat-not-closed',
      words: `The repeat that begins here is not closed before ${until}; it is played once.`,
    });

  let open: Bar | null = null;
  let endings: Endings | null = null;
  let isInside = false;

  const closeEndings = () => {
    if (endings) checkRow(endings);
    endings = null;
  };
  const checkRow = ({ first, numbers, repeats }: Endings) => {
    const highest = Math.max(...numbers);
    const missing = Array.from({ length: highest }, (_, k) => k + 1).filter((number) => !numbers.has(number));
    if (!repeats) {
      report(first, 'ending', {
        kind: 'ending-without-repeat',
        words: 'No repeat sign stands at the end of this ending, so nothing is played again.',
      });
    } else if (missing.length > 0 && missing.length < 16) {
      report(first, 'ending', {
        kind: 'ending-missing',
        words: `There is no ending ${missing.join(', ')}; that time through, none is played.`,
      });
    }
  };

  for (const bar of bars) {
    if (bar.ending === '' && !isInside) closeEndings();
    if (bar.left === '|:') {
      if (open) notClosed(open, 'the next one begins');
      if (bar.ending === '') closeEndings();
      open = bar;
    }
    if (bar.ending !== '') {
      const row: Endings = endings ?? { first: bar, numbers: new Set(), repeats: false };
      endings = row;
      isInside = true;
      for (const number of endingNumbers(bar.ending)) {
        if (number === 0) {
          report(bar, 'ending', { kind: 'ending-zero', words: 'Endings are numbered from 1.' });
        } else if (row.numbers.has(number)) {
          report(bar, 'ending', {
            kind: 'ending-twice',
            words: `Ending ${number} stands twice; every number stands once.`,
          });
        }
        row.numbers.add(number);
      }
    }
    const times = repeatTimes(bar.right);
    if (times !== null) {
      if (times < 1 || times > MOST_TIMES) {
        report(bar, 'right', {
          kind: 'repeat-times',
          words: `A repeat is played 2 to ${MOST_TIMES} times in all, not ${times}.`,
        });
      }
      if (isInside && endings) (endings as Endings).repeats = true;
      open = null;
    }
    if (bar.right !== '') isInside = false;
  }
  closeEndings();
  if (open) notClosed(open, 'the section ends');
  return found;
};
