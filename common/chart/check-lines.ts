import { type Chart, HEAD_WORDS } from './chart.ts';
import type { Found } from './found.ts';
import { isRemark, isRoadWord, placeInHead, ROAD_PLACE, readWordAndColon } from './kept-line.ts';
import { nearMiss } from './near-miss.ts';
import { quotedSpans } from './quoted-spans.ts';
import { plainText } from './text-line.ts';

/** Why each kept line could not be taken as written, and road lines whose words were left open. */
export const checkLines = (chart: Chart): Found[] => {
  const roadPlaces = new Set([ROAD_PLACE, ...chart.road.map(({ id }) => id)]);
  const headPlaces = new Set<string>(['', ...HEAD_WORDS]);
  const found = chart.lines.flatMap(({ id, text, after }): Found[] => {
    const plain = plainText(text).trim();
    if (plain === '' || isRemark(plain)) return [];
    const zone = roadPlaces.has(after)
      ? 'road'
      : headPlaces.has(placeInHead(text, after, chart.head))
        ? 'head'
        : 'music';
    return [{ id, at: id, ...doubtOf(plain, zone) }];
  });
  const leftOpen = chart.road.flatMap(({ id, words }): Found[] =>
    words.startsWith('"')
      ? [
          {
            id,
            at: id,
            kind: 'unclosed-quote',
            words: 'The words of this road line are not closed by a quote.',
            suggestion: `${words}"`,
          },
        ]
      : [],
  );
  return [...found, ...leftOpen];
};

const doubtOf = (plain: string, zone: 'head' | 'music' | 'road') => {
  const start = readWordAndColon(plain);
  if (isRoadWord(plain)) {
    return plain.endsWith(':')
      ? { kind: 'empty-road', words: 'No leg follows “road:”.', suggestion: 'road:\n  Head: A B x2' }
      : unreadableLeg;
  }
  if (start?.headWord && zone === 'head') {
    return {
      kind: 'header-twice',
      words: `“${start.headWord}” is written twice; the first counts.`,
    };
  }
  if (start?.headWord && zone === 'music') {
    return {
      kind: 'header-too-late',
      words: `“${start.headWord}” belongs above the first section; here it does nothing.`,
    };
  }
  if (zone === 'road') return quotedSpans(plain).some(({ closed }) => !closed) ? openWords : unreadableLeg;
  if (start) {
    const meant = nearMiss(start.typed, [...HEAD_WORDS, 'note', 'road']);
    return {
      kind: 'unknown-header',
      words: `Nobody knows the header “${start.typed}”${meant ? `: ${meant}?` : '. It is kept; for a remark write “note:”.'}`,
      suggestion: meant ? `${meant}:${headerValue(plain, start.valueFrom)}` : `note: ${plain}`,
    };
  }
  if (/^\[[^\]]*$/.test(plain)) {
    return {
      kind: 'unreadable-line',
      words: 'The name of this section is not closed by a bracket.',
      suggestion: `${plain}]`,
    };
  }
  return {
    kind: 'unreadable-line',
    words:
      'This line is neither music, which has a bar line, nor a section in brackets, nor a header. It is kept as it is.',
    suggestion: looksLikeChords(plain) ? `| ${plain} |` : `note: ${plain}`,
  };
};

/** What stands behind the colon, without the bracket that closes one before the word: `{title: x}`. */
const headerValue = (plain: string, from: number): string =>
  /^[({<]/.test(plain) ? plain.slice(from).replace(/ *[)}>]$/, '') : plain.slice(from);

const openWords = { kind: 'unclosed-quote', words: 'Words in this road line are not closed by a quote.' };

const unreadableLeg = {
  kind: 'unreadable-road-line',
  words: 'A line of the road map begins with a name and a colon.',
  suggestion: 'Head: A B',
};

const looksLikeChords = (plain: string): boolean =>
  plain.split(/ +/).every((token) => /^(?:<?[A-G][^ ]*|[/%r]+|N\.?C\.?)$/.test(token));
