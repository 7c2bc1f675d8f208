import { readKey } from '../theory/key.ts';
import type { Chart, HeadWord } from './chart.ts';
import { HEAD_WORDS } from './chart.ts';
import { checkRepeats } from './check-repeats.ts';
import { type Found, spotKey } from './found.ts';
import { FASTEST_BPM, MOST_COUNT_BARS, readCountBars, readTempo, SLOWEST_BPM } from './head.ts';
import { isRemark, isRoadWord, readWordAndColon } from './kept-line.ts';
import { nearMiss } from './near-miss.ts';
import type { Problem } from './problem.ts';
import { resolveBars } from './read-bars.ts';
import { metreDoubt } from './read-mark.ts';
import { readMetre } from './read-metre.ts';
import { plainText, tidyBlanks } from './text-line.ts';

/**
 * Everything in a chart that could not be taken as written, by the id of the bar, section or line it is in.
 * What the road map's words mean is asked by `form`, which reports it.
 */
export const checkChart = (chart: Chart): Problem[] =>
  findProblems(chart).map(({ at: _, ...problem }) => problem);

/** As `checkChart`, with the part of the chart that each problem is at. */
export const findProblems = (chart: Chart): Found[] => [
  ...checkHead(chart),
  ...chart.lines.flatMap((line) => checkKeptLine(line, chart)),
  ...checkSectionNames(chart),
  ...chart.sections.flatMap(({ bars }) => checkRepeats(bars)),
  ...resolveBars(chart).found,
  ...checkRoadWords(chart),
];

type Doubt = Omit<Problem, 'line' | 'column' | 'id'>;

const HEAD_CHECKS: Readonly<Partial<Record<HeadWord, (typed: string) => Doubt | null>>> = {
  key: (typed) => {
    if (typed === '' || readKey(typed)) return null;
    const capital = typed.replace(/^[a-g]/, (tonic) => tonic.toUpperCase());
    return {
      kind: 'unknown-key',
      words: `“${typed}” names no key that is known; write a tonic and what it is, such as Eb blues or C minor.`,
      ...(capital !== typed && readKey(capital) ? { suggestion: capital } : {}),
    };
  },
  time: (typed) => (typed === '' || readMetre(typed) ? null : metreDoubt(tidyBlanks(plainText(typed)))),
  tempo: (typed) =>
    typed === '' || readTempo(typed) !== null
      ? null
      : {
          kind: 'bad-tempo',
          words: `A tempo is a number of pulses a minute from ${SLOWEST_BPM} to ${FASTEST_BPM}, not “${typed}”.`,
        },
  count: (typed) =>
    typed === '' || readCountBars(typed) !== null
      ? null
      : { kind: 'bad-count', words: `The count-in is 0 to ${MOST_COUNT_BARS} bars, not “${typed}”.` },
};

const checkHead = ({ head }: Chart): Found[] =>
  HEAD_WORDS.flatMap((word) => {
    const typed = head[word];
    const doubt = typed === undefined ? null : HEAD_CHECKS[word]?.(typed);
    return doubt ? [{ at: spotKey('head', word), ...doubt }] : [];
  });

const checkKeptLine = ({ id, text, after }: Chart['lines'][number], { head }: Chart): Found[] => {
  const plain = plainText(text);
  if (isRemark(plain)) return [];
  const found = (doubt: Doubt): Found[] => [{ id, at: id, ...doubt }];
  if (isRoadWord(plain) && tidyBlanks(plain.slice(plain.indexOf(':') + 1)) === '') {
    return found({
      kind: 'empty-road',
      words: 'Nothing stands in the road map, so the usual one is played: head, open solos, head out.',
    });
  }
  const line = readWordAndColon(plain);
  const isInHead = after === '' || HEAD_WORDS.some((word) => word === after);
  if (line?.headWord !== undefined && head[line.headWord] !== undefined && isInHead) {
    return found({
      kind: 'header-twice',
      words: `“${line.headWord}:” stands twice; the first one counts.`,
    });
  }
  if (line?.headWord !== undefined) {
    return found({
      kind: 'header-late',
      words: `“${line.headWord}:” belongs at the top, before the first section; here it is kept and does nothing.`,
    });
  }
  if (line !== null && isInHead) {
    const meant = nearMiss(line.typed, HEAD_WORDS);
    return found({
      kind: 'unknown-header',
      words:
        meant === null
          ? `“${line.typed}:” is no header line that is known; it is kept and does nothing.`
          : `“${line.typed}:” is no header line that is known: ${meant}?`,
      ...(meant === null ? {} : { suggestion: `${meant}:${plain.slice(line.valueFrom)}` }),
    });
  }
  return found({
    kind: 'unreadable-line',
    words:
      'This line is neither music, a section, a header line nor a line of the road map. It is kept as typed.',
    ...(plain.trim() === '' ? {} : { suggestion: `note: ${plain.trim()}` }),
  });
};

const checkSectionNames = ({ sections }: Chart): Found[] => {
  const names = new Set(sections.map(({ label }) => label));
  const seen = new Set<string>();
  return sections.flatMap(({ id, label }) => {
    if (label === '' || !seen.has(label)) {
      seen.add(label);
      return [];
    }
    let number = 2;
    while (names.has(`${label}${number}`)) number += 1;
    return [
      {
        id,
        at: id,
        kind: 'section-twice',
        words: `There are two sections “${label}”; the road map means the first.`,
        suggestion: `[${label}${number}]`,
      },
    ];
  });
};

/** Words on a road line that were left open begin with their quote. */
const checkRoadWords = ({ road }: Chart): Found[] =>
  road.flatMap(({ id, words }) =>
    words.startsWith('"')
      ? [
          {
            id,
            at: id,
            kind: 'unclosed-quote',
            words: 'These words are not closed by a quote.',
            suggestion: `${words}"`,
          },
        ]
      : [],
  );
