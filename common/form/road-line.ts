import type { RoadLine } from '../chart/chart.ts';
import type { Problem } from '../chart/problem.ts';
import { nearestName } from './nearest-name.ts';

/** What a line of the road map asks for. */
export interface RoadOrder {
  /** Indices of the sections named, in order. */
  readonly sections: readonly number[];
  /** `al Coda`, `D.S. al Fine`, `D.C.` …: what happens after the sections named. */
  readonly jump?: Jump;
  /** `last 4`: so many bars of the leg before. */
  readonly lastBars?: number;
  /** Absent where nothing is written, which means once. */
  readonly times?: number | 'open' | 'vamp';
  /** Bars of a turn. */
  readonly trade?: number;
}

export interface Jump {
  /** D.S. goes back to the segno, D.C. to the beginning; absent: only the last pass leaves for the Coda or the Fine. */
  readonly back?: 'segno' | 'beginning';
  readonly to?: 'coda' | 'fine';
  /** Repeats are taken again after going back, which they are only where it is written. */
  readonly withRepeats: boolean;
}

const MOST_PASSES = 999;

/**
 * Reads `sections` and `times` of a road line: section names (exactly, else without capitals, the longest first,
 * in brackets where they are road words) and the words of the road. What is not understood is reported and skipped.
 * @param labels the names of the chart's sections in order; of two equal ones the first is meant
 */
export const readRoadLine = (
  line: RoadLine,
  labels: readonly string[],
): { readonly order: RoadOrder; readonly problems: Problem[] } => {
  const tokens = `${line.sections} ${line.times}`.match(/\[[^\]]*\]|\S+/g) ?? [];
  const problems: Problem[] = [];
  const report = (kind: string, words: string, suggestion?: string) =>
    problems.push({ id: line.id, kind, words, ...(suggestion === undefined ? {} : { suggestion }) });
  const sections: number[] = [];
  const order: { -readonly [Field in keyof RoadOrder]: RoadOrder[Field] } = { sections };
  let jump: Jump | undefined;
  let timesWord = '';

  let at = 0;
  while (at < tokens.length) {
    const token = tokens[at] ?? '';
    const word = readRoadWord(tokens, at);
    if (word) {
      const written = tokens.slice(at, at + word.length).join(' ');
      at += word.length;
      switch (word.kind) {
        case 'times': {
          const nextSection = sectionAt(tokens, at, labels);
          if (nextSection && order.lastBars === undefined) {
            const before = sections.at(-1);
            const name = before === undefined ? '' : (labels[before] ?? '');
            report(
              'times-in-the-middle',
              `“${written}” stands in the middle of ${line.name}. It counts for the whole line and goes at its end; a section that comes twice is written twice.`,
              name !== '' && typeof word.times === 'number' && word.times <= 8
                ? Array.from({ length: word.times }, () => name).join(' ')
                : undefined,
            );
          } else if (order.times !== undefined) {
            report('two-times', `${line.name} says both “${timesWord}” and “${written}”; the first counts.`);
          } else if (word.times === 0 || word.times === null) {
            report(
              'times-out-of-range',
              `“${written}” is no number of times; ${line.name} is played once.`,
              'x2',
            );
          } else {
            order.times = word.times;
            timesWord = written;
          }
          break;
        }
        case 'trade':
          order.trade = word.bars;
          break;
        case 'last':
          order.lastBars = word.bars;
          break;
        case 'repeats':
          if (jump?.back) jump = { ...jump, withRepeats: true };
          else report('unknown-road-word', `“${written}” belongs after D.S. or D.C.`);
          break;
        case 'back':
          if (jump) report('two-jumps', `${line.name} jumps twice; the first counts.`);
          else jump = { back: word.back, withRepeats: false };
          break;
        case 'al':
          if (jump?.to) report('two-jumps', `${line.name} jumps twice; the first counts.`);
          else jump = { withRepeats: false, ...jump, to: word.to };
          break;
      }
      continue;
    }
    const section = sectionAt(tokens, at, labels);
    if (section) {
      const written = tokens.slice(at, at + section.length).join(' ');
      at += section.length;
      if (jump) {
        report(
          'after-the-jump',
          `${written} stands after the jump in ${line.name} and is never reached; give it a line of its own.`,
        );
      } else sections.push(section.index);
      continue;
    }
    at += 1;
    reportUnknown(token, line, labels, report);
  }

  if (order.lastBars !== undefined && (sections.length > 0 || jump)) {
    report(
      'last-with-sections',
      `“last ${order.lastBars}” repeats the end of the leg before and stands on a line of its own, for example “Tag: last ${order.lastBars} x3”.`,
    );
    delete order.lastBars;
  }
  if (jump) order.jump = jump;
  if (sections.length === 0 && !jump && order.lastBars === undefined && problems.length === 0) {
    const meant = tokens.map((token) => labels.find((label) => isSame(label, token))).find((label) => label);
    report(
      'no-section-named',
      meant
        ? `${line.name} names no section: “${meant}” is read as a word of the road map. Put the section's name in brackets.`
        : `${line.name} names no section, so nothing is played there.`,
      meant ? `[${meant}] ${tokens.join(' ')}` : undefined,
    );
  }
  return { order, problems };
};

type RoadWord = { readonly length: number } & (
  | { readonly kind: 'times'; readonly times: number | 'open' | 'vamp' | null }
  | { readonly kind: 'trade' | 'last'; readonly bars: number }
  | { readonly kind: 'back'; readonly back: 'segno' | 'beginning' }
  | { readonly kind: 'al'; readonly to: 'coda' | 'fine' }
  | { readonly kind: 'repeats' }
);

/** The word of the road map that begins at a token, and how many tokens it takes. */
const readRoadWord = (tokens: readonly string[], at: number): RoadWord | null => {
  const word = (offset: number) => (tokens[at + offset] ?? '').toLowerCase();
  const first = word(0);
  const second = word(1);
  const times = /^(?:x(\d+)|(\d+)x)$/.exec(first) ?? (first === 'x' ? /^(\d+)$/.exec(second) : null);
  if (times) {
    const count = Number(times[1] ?? times[2]);
    return { kind: 'times', length: first === 'x' ? 2 : 1, times: count > MOST_PASSES ? null : count };
  }
  if (first === 'open' || first === 'vamp') return { kind: 'times', length: 1, times: first };
  const bars = /^[1-9]\d{0,2}$/.test(second) ? Number(second) : null;
  const barsLength = word(2) === 'bars' || word(2) === 'bar' ? 3 : 2;
  if (first === 'trade' && bars !== null) return { kind: 'trade', length: barsLength, bars };
  if (first === 'last' && bars !== null) return { kind: 'last', length: barsLength, bars };
  if (/^d\.?s\.?$/.test(first)) return { kind: 'back', length: 1, back: 'segno' };
  if (/^d\.?c\.?$/.test(first)) return { kind: 'back', length: 1, back: 'beginning' };
  if (first === 'dal' && second === 'segno') return { kind: 'back', length: 2, back: 'segno' };
  if (first === 'da' && second === 'capo') return { kind: 'back', length: 2, back: 'beginning' };
  if (first === 'al' && (second === 'coda' || second === 'fine'))
    return { kind: 'al', length: 2, to: second };
  if (first === 'with' && second === 'repeats') return { kind: 'repeats', length: 2 };
  return null;
};

const plain = (name: string): string => name.trim().replace(/\s+/g, ' ');
const isSame = (a: string, b: string): boolean => plain(a).toLowerCase() === plain(b).toLowerCase();

/** The section whose name begins at a token: exactly, else without capitals; the longest name first. */
const sectionAt = (
  tokens: readonly string[],
  at: number,
  labels: readonly string[],
): { readonly index: number; readonly length: number } | null => {
  const bracketed = /^\[([^\]]*)\]$/.exec(tokens[at] ?? '');
  if (bracketed) {
    const index = findLabel(plain(bracketed[1] ?? ''), labels);
    return index === -1 ? null : { index, length: 1 };
  }
  const isExact = (label: string, name: string) => label !== '' && plain(label) === name;
  const isAlike = (label: string, name: string) => label !== '' && isSame(label, name);
  for (const matches of [isExact, isAlike]) {
    for (let length = tokens.length - at; length >= 1; length--) {
      const name = tokens.slice(at, at + length).join(' ');
      const index = labels.findIndex((label) => matches(label, name));
      if (index !== -1) return { index, length };
    }
  }
  return null;
};

/** Index of the first section of this name, exactly or else without capitals; −1 where there is none. */
export const findLabel = (name: string, labels: readonly string[]): number => {
  const exact = labels.findIndex((label) => plain(label) === name);
  return exact !== -1 ? exact : labels.findIndex((label) => isSame(label, name));
};

const reportUnknown = (
  token: string,
  line: RoadLine,
  labels: readonly string[],
  report: (kind: string, words: string, suggestion?: string) => void,
): void => {
  const spelled = [...token].map((letter) => labels.find((label) => label === letter));
  if (token.length > 1 && spelled.every((label) => label !== undefined)) {
    report(
      'sections-run-together',
      `“${token}” in ${line.name}: put blanks between the names of the sections.`,
      spelled.join(' '),
    );
    return;
  }
  const known = [...labels.filter((label) => label !== ''), 'open', 'vamp', 'trade', 'last', 'Coda', 'Fine'];
  const near = nearestName(token.replace(/^\[|\]$/g, ''), known);
  report(
    token.startsWith('[') ? 'unknown-section' : 'unknown-road-word',
    `“${token}” in ${line.name} is neither a section of this chart nor a word of the road map${near ? `; did you mean “${near}”?` : '.'}`,
    near,
  );
};
