import type { Metre } from '../chart/bar-music.ts';
import type { Problem } from '../chart/problem.ts';
import { countPulses } from '../chart/read-counts.ts';
import { COMMON_TIME } from '../chart/read-metre.ts';

/** A count: the pulse, from 0, and which part of it. */
export interface Count {
  readonly pulse: number;
  readonly part: '' | 'e' | '&' | 'a';
}

/** A rhythm of one bar or two, for bars of so many pulses; each bar's counts rise. */
export interface Rhythm {
  readonly pulses: number;
  readonly bars: readonly (readonly Count[])[];
}

/** Whether anything is played in it. */
export const hasCounts = ({ bars }: Rhythm): boolean => bars.some((bar) => bar.length > 0);

const MOST_BARS = 2;
const TOKEN = /\||[^\s,|]+/g;
const COUNT = /^(\d{1,2})?(e|&|a|\+|and)?$/i;
const PARTS: Readonly<Record<string, Count['part']>> = { e: 'e', '&': '&', '+': '&', and: '&', a: 'a' };
/** A bar in which nothing is played. */
const REST = /^r$/i;

/** Where a count lies in a bar, in pulses from 0; NaN where the metre has no such count. */
export const placeOfCount = ({ pulse, part }: Count, metre: Metre): number =>
  countPulses(`${pulse + 1}${part}`, metre)?.[0] ?? Number.NaN;

/**
 * A rhythm written the trade's way: `1 2& 4`, `1 e & a`, a bar line before a second bar, `r` for a bar that rests.
 * A number stands for its pulse, a letter alone for a part of the pulse before it. What can't be read is reported with
 * its column and left out; the rest is read.
 *
 * Law: `readRhythm(printRhythm(rhythm), metre).rhythm` equals `rhythm`.
 */
export const readRhythm = (text: string, metre: Metre): { rhythm: Rhythm; problems: Problem[] } => {
  const problems: Problem[] = [];
  const bars: Count[][] = [[]];
  let pulse: number | null = null;
  const tokens = [...text.matchAll(TOKEN)];
  tokens.forEach(({ 0: token, index }, i) => {
    const report = (kind: string, words: string, suggestion?: string) =>
      problems.push({ column: index + 1, kind, words, ...(suggestion === undefined ? {} : { suggestion }) });
    if (token === '|') {
      // Bar lines at the edges may be written or left out.
      if (i === 0 || i === tokens.length - 1) return;
      bars.push([]);
      pulse = null;
      if (bars.length === MOST_BARS + 1) report('too-many-bars', 'A rhythm has one bar or two.');
      return;
    }
    if (REST.test(token)) return;
    const match = COUNT.exec(token);
    if (!match) {
      const apart = runTogether(token);
      report(
        apart ? 'run-together' : 'unknown-count',
        apart ? `“${token}”: are these counts on their own?` : `“${token}” is no count: 1, 2&, 4a are.`,
        apart ?? undefined,
      );
      return;
    }
    pulse = match[1] === undefined ? pulse : Number(match[1]) - 1;
    if (pulse === null) {
      report('no-pulse', `“${token}” needs the number of its pulse before it.`, `1${token}`);
      return;
    }
    const count: Count = { pulse, part: PARTS[(match[2] ?? '').toLowerCase()] ?? '' };
    addCount(count, bars.at(-1) as Count[], metre, report);
  });
  const read = bars.slice(0, MOST_BARS);
  if (problems.length === 0 && read.every((bar) => bar.length === 0) && !/r/i.test(text)) {
    problems.push({
      column: 1,
      kind: 'no-counts',
      words: 'Nothing is played in this rhythm.',
      suggestion: '1 2& 4',
    });
  }
  return { rhythm: { pulses: metre.pulses, bars: read }, problems };
};

/**
 * A rhythm for a tune in that metre. One that was written for four beats is read as that, whatever the tune's metre is:
 * the band lays it into the bar.
 */
export const readRhythmFor = (
  text: string,
  metre: Metre,
): ReturnType<typeof readRhythm> & { readonly metre: Metre } => {
  const own = { ...readRhythm(text, metre), metre };
  if (own.problems.length === 0) return own;
  const inFour = { ...readRhythm(text, COMMON_TIME), metre: COMMON_TIME };
  return inFour.problems.length === 0 ? inFour : own;
};

const addCount = (
  count: Count,
  bar: Count[],
  metre: Metre,
  report: (kind: string, words: string, suggestion?: string) => void,
): void => {
  const place = placeOfCount(count, metre);
  const said = `${count.pulse + 1}${count.part}`;
  if (Number.isNaN(place)) {
    const isPart = count.pulse >= 0 && count.pulse < metre.pulses;
    const words = isPart
      ? `A pulse of ${metre.text} is counted 1 & a; there is no “${said}”.`
      : `${metre.text} has no pulse ${count.pulse + 1}: it counts from 1 to ${metre.pulses}.`;
    report('no-such-count', words, isPart ? `${count.pulse + 1}&` : String(metre.pulses));
    return;
  }
  const last = bar.at(-1);
  const before = last ? placeOfCount(last, metre) : -1;
  if (place === before) report('said-twice', `“${said}” is there already.`);
  else if (place < before) {
    report(
      'goes-back',
      `“${said}” lies before “${printCount(last as Count)}”: counts go forward.`,
      `| ${said}`,
    );
  } else bar.push(count);
};

/** `1e&a` written apart: `1 e & a`; null where it is no run of counts. */
const runTogether = (token: string): string | null => {
  const parts = token.match(/\d{1,2}|[e&a+]/gi) ?? [];
  return parts.length > 1 && parts.join('') === token ? parts.join(' ') : null;
};

const printCount = ({ pulse, part }: Count): string => `${pulse + 1}${part}`;

const printBar = (bar: readonly Count[]): string =>
  bar.length === 0
    ? 'r'
    : bar.map((count, i) => (bar[i - 1]?.pulse === count.pulse ? count.part : printCount(count))).join(' ');

/** The rhythm as the trade writes it: `1 e & a | 2& 4`. */
export const printRhythm = ({ bars }: Rhythm): string => bars.map(printBar).join(' | ');
