import { HEAD_WORDS } from './chart.ts';
import type { DraftBar, DraftChart, DraftLine, DraftSection, FixedPlace, Spot } from './draft-chart.ts';
import { isRemark, isRoadWord, placeInHead, ROAD_PLACE, readWordAndColon } from './kept-line.ts';
import { readLegLine } from './leg-line.ts';
import { indexOutsideQuotes } from './quoted-spans.ts';
import { NOTHING_PENDING, type Pending, readMusicLine } from './read-music-line.ts';
import { cutLine, splitLines, type TextLine, tidyBlanks } from './text-line.ts';

/**
 * Reads a text line by line. A line is, in this order: blank; `[name]`; music, if a bar line stands outside
 * quotes; `road:` and its legs; a header line; else kept as it is.
 */
export const readDraft = (text: string): DraftChart => {
  const draft: DraftChart = { head: {}, headSpots: new Map(), sections: [], road: [], lines: [] };
  let headPlace: FixedPlace = '';
  let musicPlace: DraftSection | DraftBar | null = null;
  let roadPlace: DraftLine['after'] = ROAD_PLACE;
  let isRoadOpen = false;
  let pending: Pending = NOTHING_PENDING;
  const bareRoadWords: TextLine[] = [];

  const keep = (line: TextLine, after = isRoadOpen ? roadPlace : (musicPlace ?? headPlace)) =>
    draft.lines.push({ text: line.raw, spot: spotOf(line), after });

  const endSection = () => {
    const bars = draft.sections.at(-1)?.bars;
    if (!bars || pending === NOTHING_PENDING) return;
    const { left, leftSpot, ending, endingSpot } = pending;
    const spot = leftSpot ?? endingSpot ?? { line: 1, column: 1 };
    const bar: DraftBar = {
      text: '',
      left,
      right: '',
      ending,
      lineEnd: true,
      spots: { bar: spot, tokens: [], right: spot },
    };
    if (leftSpot) bar.spots.left = leftSpot;
    if (endingSpot) bar.spots.ending = endingSpot;
    bars.push(bar);
    pending = NOTHING_PENDING;
  };

  const beginSection = (label: string, spot: Spot): DraftSection => {
    endSection();
    isRoadOpen = false;
    const section: DraftSection = { label, spot, bars: [] };
    draft.sections.push(section);
    musicPlace = section;
    return section;
  };

  const readRoad = (line: TextLine) => {
    isRoadOpen = true;
    const rest = cutLine(line, line.plain.indexOf(':') + 1);
    if (rest.plain === '') bareRoadWords.push(line);
    else if (rest.plain.startsWith('[') || isRemark(rest.plain) || isRoadWord(rest.plain)) keep(line);
    else if (!readLeg(rest)) keep(line);
  };

  const readLeg = (line: TextLine): boolean => {
    const leg = readLegLine(line);
    if (!leg) return false;
    const named = { ...leg, spot: spotOf(line) };
    draft.road.push(named);
    roadPlace = named;
    return true;
  };

  const readHeadLine = (line: TextLine): boolean => {
    const start = readWordAndColon(line.plain);
    const word = start?.headWord;
    if (!start || !word || draft.sections.length > 0 || (isRoadOpen && isIndented(line))) return false;
    isRoadOpen = false;
    if (draft.head[word] !== undefined) {
      keep(line);
      return true;
    }
    const value = cutLine(line, start.valueFrom);
    draft.head[word] = value.raw;
    draft.headSpots.set(word, spotOf(value.plain === '' ? line : value));
    headPlace = word;
    return true;
  };

  const readLine = (line: TextLine): void => {
    if (line.plain === '') return;
    const name = /^\[([^\]]*)\]/.exec(line.plain);
    if (name) {
      beginSection(tidyBlanks(name[1] ?? ''), spotOf(line));
      readLine(cutLine(line, name[0].length));
    } else if (indexOutsideQuotes(line.plain, '|') !== -1) {
      const section = draft.sections.at(-1) ?? beginSection('', spotOf(line));
      isRoadOpen = false;
      pending = readMusicLine(line, section.bars, pending);
      musicPlace = section.bars.at(-1) ?? section;
    } else if (isRoadWord(line.plain)) readRoad(line);
    else if (readHeadLine(line)) return;
    else if (isRemark(line.plain) || !isRoadOpen || !readLeg(line)) keep(line);
  };

  for (const line of splitLines(text)) readLine(cutLine(line, 0));
  endSection();
  const [bare] = bareRoadWords;
  const isRoadEmpty = draft.road.length === 0 && !draft.lines.some(({ after }) => after === ROAD_PLACE);
  if (bare && isRoadEmpty) keep(bare, ROAD_PLACE);
  return { ...draft, lines: draft.lines.map((line) => ({ ...line, after: placeOf(line, draft) })) };
};

const placeOf = ({ text, after }: DraftLine, { head }: DraftChart): DraftLine['after'] => {
  if (typeof after !== 'string') return after;
  const place = placeInHead(text, after, head);
  return HEAD_WORDS.find((word) => word === place) ?? after;
};

const spotOf = ({ line, column }: TextLine): Spot => ({ line, column });

/** A leg may have any name where it is set in; at the margin, above the music, `title:` is the header's. */
const isIndented = ({ line, column }: TextLine): boolean => column > (line === 1 ? 2 : 1);
