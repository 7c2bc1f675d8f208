import { printBarText, readBarText } from './bar-text.ts';
import { type Bar, type Chart, HEAD_WORDS, type KeptLine } from './chart.ts';
import { isRoadWord, placeInHead, ROAD_PLACE } from './kept-line.ts';
import { printLegLine } from './leg-line.ts';
import { printMusicLine } from './print-music-line.ts';
import { indexOutsideQuotes } from './quoted-spans.ts';
import { readChart } from './read-chart.ts';
import { plainText } from './text-line.ts';

/** Bars that are longer don't widen the columns. */
const WIDEST_COLUMN = 12;

/**
 * The chart as text, tidied: header in one order, bars in columns, the road map at the end. Lines stay lines;
 * spellings and kept lines keep their words and their place; nothing that was reported is repaired.
 */
export const printChart = (chart: Chart): string =>
  // Fields that were edited may hold what reads otherwise, such as a bar with a bar line in its text. Read once, they
  // are what the text says, and print the same ever after.
  printOnce(readChart(printOnce(chart)).chart);

const printOnce = (chart: Chart): string => {
  const keptAfter = groupKept(chart);
  const takeKept = (place: string): string[] =>
    (keptAfter.get(place) ?? []).map(({ text }) => keptText(text));

  const head = [...takeKept('')];
  for (const word of HEAD_WORDS) {
    const value = chart.head[word];
    if (value !== undefined) head.push(`${word}: ${oneLine(value)}`.trimEnd());
    head.push(...takeKept(word));
  }

  const texts = new Map<string, string>();
  for (const { bars } of chart.sections)
    for (const bar of bars) texts.set(bar.id, printBarText(readBarText(bar.text)));
  const width = columnWidth([...texts.values()]);
  const music: string[] = [];
  chart.sections.forEach((section, index) => {
    const below = takeKept(section.id);
    const isNameless = section.label === '' && index === 0 && section.bars.length > 0 && below.length === 0;
    if (!isNameless) music.push(`[${withoutBreaks(section.label).replaceAll(']', ')')}]`);
    music.push(...below);
    for (const line of linesOf(section.bars)) {
      music.push(
        printMusicLine(
          line.map((bar) => ({ ...bar, text: texts.get(bar.id) ?? '' })),
          width,
        ),
      );
      for (const bar of line) music.push(...takeKept(bar.id));
    }
  });

  const road = takeKept(ROAD_PLACE).map((line, index) =>
    index === 0 && isRoadWord(line) ? line : `  ${line}`,
  );
  for (const line of chart.road) {
    road.push(
      `  ${withoutSectionName(printLegLine(sayable(line)))}`,
      ...takeKept(line.id).map((text) => `  ${text}`),
    );
  }
  if (road[0] !== undefined && !isRoadWord(road[0])) road.unshift('road:');

  const parts = [head, music, road].filter((part) => part.length > 0);
  return parts.map((part) => `${part.join('\n')}\n`).join('\n');
};

/** Kept lines by what they stand after. Lines that stand after another kept line follow it; lost ones go to the top. */
const groupKept = ({ head, sections, road, lines }: Chart): Map<string, KeptLine[]> => {
  const places = new Set<string>(['', ...HEAD_WORDS, ROAD_PLACE]);
  for (const { id, bars } of sections)
    for (const part of [id, ...bars.map((bar) => bar.id)]) places.add(part);
  for (const { id } of road) places.add(id);
  const byId = new Map(lines.map((line) => [line.id, line]));
  const rootOf = (line: KeptLine): string => {
    let place = line.after;
    for (let steps = 0; steps < lines.length && !places.has(place); steps++)
      place = byId.get(place)?.after ?? '';
    return placeInHead(line.text, places.has(place) ? place : '', head);
  };
  const groups = new Map<string, KeptLine[]>();
  for (const line of lines) {
    if (plainText(line.text).trim() === '') continue;
    const root = rootOf(line);
    const group = groups.get(root);
    if (group) group.push(line);
    else groups.set(root, [line]);
  }
  return groups;
};

const linesOf = (bars: readonly Bar[]): Bar[][] => {
  const lines: Bar[][] = [];
  let line: Bar[] = [];
  for (const bar of bars) {
    line.push(bar);
    if (bar.lineEnd) {
      lines.push(line);
      line = [];
    }
  }
  if (line.length > 0) lines.push(line);
  return lines;
};

const columnWidth = (texts: readonly string[]): number =>
  texts.reduce((width, text) => {
    const { length } = [...text];
    return length <= WIDEST_COLUMN ? Math.max(width, length) : width;
  }, 0);

/** A value that came from elsewhere than a text may hold line ends or bar lines, which would make other lines of it. */
const oneLine = (value: string): string => withoutSign(withoutBreaks(value), '|', '¦');

const withoutBreaks = (value: string): string => value.replace(/[\r\n]+/g, ' ').trim();

const withoutSign = (text: string, sign: string, instead: string): string => {
  const at = indexOutsideQuotes(plainText(text), sign);
  return at === -1 ? text : withoutSign(`${text.slice(0, at)}${instead}${text.slice(at + 1)}`, sign, instead);
};

const keptText = (text: string): string => withoutSectionName(oneLine(text));

/** A line that would be read as the name of a section. */
const withoutSectionName = (line: string): string => line.replace(/^\[(?=[^\]]*\])/, '(');

const sayable = <Line extends Chart['road'][number]>(line: Line): Line => ({
  ...line,
  name: withoutSign(oneLine(line.name), ':', ' ').replace(/^(road|note) *$/i, 'the $1'),
  sections: oneLine(line.sections),
  times: oneLine(line.times),
  words: line.words.replace(/[\r\n]+/g, ' '),
});
