import { readMetre } from '../../common/chart/read-metre.ts';
import { readKey } from '../../common/theory/key.ts';

/** What one says of a chart before any bar is written. All as typed. */
export interface NewChart {
  readonly title: string;
  readonly by: string;
  readonly key: string;
  readonly time: string;
  readonly tempo: string;
  /** Empty bars to begin with. */
  readonly bars: number;
}

const BARS_A_LINE = 4;

const oneLine = (text: string): string => text.replace(/\s+/g, ' ').trim();

/** The chart text of a new chart: its header, and one section of empty bars, four to a line. */
export const newChartText = ({ title, by, key, time, tempo, bars }: NewChart): string => {
  const header = Object.entries({ title, by, key, time, tempo })
    .map(([word, value]) => [word, oneLine(value)] as const)
    .filter(([, value]) => value !== '')
    .map(([word, value]) => `${word}: ${value}`);
  const lines: string[] = [];
  for (let left = bars; left > 0; left -= BARS_A_LINE) {
    lines.push(`|${'   |'.repeat(Math.min(BARS_A_LINE, left))}`);
  }
  return `${[...header, '', '[A]', ...lines].join('\n')}\n`;
};

/** What cannot be taken as typed, in the order of the fields. A key, time or tempo left empty is no problem. */
export const newChartProblems = ({
  title,
  key,
  time,
  tempo,
}: NewChart): { readonly field: keyof NewChart; readonly words: string }[] => {
  const problems: { field: keyof NewChart; words: string }[] = [];
  const bpm = Number(tempo);
  if (oneLine(title) === '') problems.push({ field: 'title', words: 'Give it a title first.' });
  if (oneLine(key) !== '' && !readKey(key)) {
    problems.push({ field: 'key', words: 'A key is a capital letter and what it is: F, Eb blues, G minor.' });
  }
  if (oneLine(time) !== '' && !readMetre(oneLine(time))) {
    problems.push({ field: 'time', words: 'A time is two figures: 4/4, 6/8, or 5/4 (3+2).' });
  }
  if (oneLine(tempo) !== '' && !(bpm >= 20 && bpm <= 400)) {
    problems.push({ field: 'tempo', words: 'A tempo is a number from 20 to 400.' });
  }
  return problems;
};
