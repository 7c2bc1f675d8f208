import { type ChartHead, HEAD_WORDS, type HeadWord } from './chart.ts';
import { plainText } from './text-line.ts';

/** The words before a line's colon, as in `tempo: 108`. */
export interface WordAndColon {
  readonly typed: string;
  /** The header word meant, capitals aside; absent where there is none of that name. */
  readonly headWord?: HeadWord;
  /** Index behind the colon. */
  readonly valueFrom: number;
}

/** Reads `word: value`; null where the line has another shape. */
export const readWordAndColon = (plain: string): WordAndColon | null => {
  const match = /^([^\s:"[\]]+) *:/.exec(plain);
  if (!match) return null;
  const typed = match[1] ?? '';
  const headWord = HEAD_WORDS.find((word) => word === typed.toLowerCase());
  return { typed, valueFrom: match[0].length, ...(headWord ? { headWord } : {}) };
};

/** A remark: `note: …`, allowed anywhere and nothing to report. */
export const isRemark = (plain: string): boolean => /^note *:/i.test(plain);

/** The line that begins the road map. */
export const isRoadWord = (plain: string): boolean => /^road *:/i.test(plain);

/** The heading of the road map, in places of kept lines. */
export const ROAD_PLACE = 'road';

/**
 * The place that a line in the header is printed at. A second line of one header word must stand below the
 * first, whatever order the header is printed in, for the first counts.
 */
export const placeInHead = (text: string, after: string, head: ChartHead): string => {
  const place = (word: string) => HEAD_WORDS.indexOf(word as HeadWord);
  const word = readWordAndColon(plainText(text))?.headWord;
  const isInHead = after === '' || place(after) !== -1;
  if (!isInHead || word === undefined || head[word] === undefined) return after;
  return place(after) > place(word) ? after : word;
};
