import type { DayScore, DrillScore } from '../../common/rehearsal/drill-scores.ts';

/** The scores of one name over the days. */
export interface PlottedName {
  readonly name: string;
  readonly words: string;
  /** In order of days. */
  readonly scores: readonly DayScore[];
}

export const shareRight = ({ asked, right }: DrillScore): number | null =>
  asked === 0 ? null : right / asked;

/** How far off the taps were on average, early or late, beats; null where nobody tapped. */
export const meanOff = ({ tapped, offBeats }: DrillScore): number | null =>
  tapped === 0 ? null : offBeats / tapped;

const DAY_MS = 86_400_000;

/** @example daysApart('2026-02-27', '2026-03-01') // 2 */
export const daysApart = (first: string, day: string): number =>
  Math.round((Date.parse(`${day}T00:00Z`) - Date.parse(`${first}T00:00Z`)) / DAY_MS);

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** @example dayWords('2026-11-28') // '28 Nov' */
export const dayWords = (day: string): string => {
  const [, month, date] = day.split('-');
  return `${Number(date)} ${MONTHS[Number(month) - 1] ?? ''}`;
};

/** The day of an instant as this tablet's calendar has it. @example dayOf(new Date(2026, 10, 28)) // '2026-11-28' */
export const dayOf = (at: Date): string =>
  [at.getFullYear(), at.getMonth() + 1, at.getDate()].map((part) => `${part}`.padStart(2, '0')).join('-');

/** Day scores by name, those asked most first; names without words are left out. */
export const byName = (
  scores: readonly DayScore[],
  wordsOf: (name: string) => string,
): readonly PlottedName[] => {
  const names = new Map<string, DayScore[]>();
  for (const score of scores) {
    const known = names.get(score.name);
    if (known) known.push(score);
    else names.set(score.name, [score]);
  }
  const asked = (ofName: readonly DayScore[]) => ofName.reduce((sum, score) => sum + score.asked, 0);
  return [...names]
    .map(([name, ofName]) => ({ name, words: wordsOf(name), scores: ofName }))
    .filter(({ words }) => words !== '')
    .sort((one, other) => asked(other.scores) - asked(one.scores));
};
