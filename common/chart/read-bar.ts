import type { BarMusic, Mark, Metre, Word } from './bar-music.ts';
import { type BarToken, readBarText, type TimeToken } from './bar-text.ts';
import type { Bar } from './chart.ts';
import { type Found, spotKey } from './found.ts';
import { type CellsMade, carriedCell, makeCells, repeatCells } from './make-cells.ts';
import { countPulses } from './read-counts.ts';
import { readWord, type WordRead } from './read-word.ts';
import { countedPulses, countOff, isCounted, layOnCounts, type SharedBar, shareOut } from './share-bar.ts';
import { type Sounding, soundingAfter } from './sounding.ts';
import { fitProblem, tokenProblem, unclosedQuote } from './token-problem.ts';

/** What a bar's text needs to know of what stands around it. */
export interface BarContext {
  /** In force before the bar. */
  readonly metre: Metre;
  readonly key: string;
  readonly legs: readonly string[];
  readonly sounding: Sounding | null;
  /** First bar of its section. */
  readonly isFirst: boolean;
  /** The bar so many bars before; null where `%` may not look there. */
  readonly barBack: (bars: 1 | 2) => BarMusic | null;
}

export interface BarRead {
  readonly music: BarMusic;
  readonly sounding: Sounding | null;
  readonly found: readonly Found[];
}

interface ReadWordToken extends WordRead {
  readonly index: number;
}

/** Reads one bar where it stands. Never throws. */
export const readBar = (bar: Bar, context: BarContext): BarRead => {
  const tokens = readBarText(bar.text);
  const timed = tokens.filter((token): token is TimeToken => token.kind !== 'word');
  const found: Found[] = [];
  const report = (token: number | string, problem: Omit<Found, 'id' | 'at'>) =>
    found.push({ id: bar.id, at: spotKey(bar.id, token), ...problem });

  const words = readWords(tokens, context.legs, report);
  /** Marks that hold on every pass: only these can change the bar's length. */
  const marks = words.flatMap(({ mark, reach }) => (mark && !reach ? [mark] : []));
  const metre = findMark(marks, 'metre')?.metre ?? context.metre;
  const key = findMark(marks, 'key')?.key ?? context.key;
  const pickUp = findMark(marks, 'pickUp') ? pickUpPulses(timed, metre, context) : null;
  if (pickUp !== null && typeof pickUp !== 'number') {
    const { index = 0 } = words.find(({ mark }) => mark?.kind === 'pickUp') ?? {};
    report(index, pickUp);
  }
  const pulses = typeof pickUp === 'number' ? pickUp : metre.pulses;

  const [only] = timed;
  const repeat = timed.length === 1 && only?.kind === 'repeat' ? only : null;
  let made: CellsMade;
  let placed: SharedBar['placed'] = [];
  if (repeat) {
    made = readRepeat(repeat.barsBack, pulses, context, (problem) => report(tokens.indexOf(repeat), problem));
  } else if (timed.length === 0) {
    made = emptyBar(bar, tokens.length === 0, marks, pulses, context, report);
  } else {
    const counts = findCounts(words, metre, report);
    const shared = shareBar(timed, metre, pulses, counts);
    placed = shared.placed;
    const problem = fitProblem(shared, tokens, { ...metre, pulses });
    if (problem) report(tokens.indexOf(problem.token), problem.problem);
    made = makeCells(placed, context.sounding);
    const lost = new Set(made.lost);
    tokens.forEach((token, index) => {
      const doubt = token.kind === 'word' ? null : tokenProblem(token, lost.has(token));
      if (doubt) report(index, doubt);
    });
  }

  const music: BarMusic = {
    metre,
    pulses,
    pickUp: typeof pickUp === 'number',
    cells: made.cells,
    words: placeWords(words, tokens, placed),
    key,
    ...(repeat ? { repeats: repeat.barsBack } : {}),
  };
  return { music, sounding: made.after, found };
};

type Report = (token: number | string, problem: Omit<Found, 'id' | 'at'>) => void;

const readWords = (
  tokens: readonly BarToken[],
  legs: readonly string[],
  report: Report,
): readonly ReadWordToken[] =>
  tokens.flatMap((token, index) => {
    if (token.kind !== 'word') return [];
    if (!token.closed) {
      report(index, unclosedQuote(token.words));
      return [{ index, text: token.words.trim() }];
    }
    const word = readWord(token.words, legs);
    if (word.doubt) {
      const { suggestion, ...doubt } = word.doubt;
      report(index, { ...doubt, ...(suggestion === undefined ? {} : { suggestion: `"${suggestion}"` }) });
    }
    return [{ ...word, index }];
  });

const findMark = <Kind extends Mark['kind']>(marks: readonly Mark[], kind: Kind) =>
  marks.find((mark): mark is Extract<Mark, { kind: Kind }> => mark.kind === kind);

/** Pulses of a pick-up, in which every token is counted; else why the bar is none. */
const pickUpPulses = (
  timed: readonly TimeToken[],
  metre: Metre,
  { isFirst }: BarContext,
): number | Omit<Found, 'id' | 'at'> => {
  const pulses = countedPulses(timed);
  if (!isFirst) {
    return {
      kind: 'pick-up-not-first',
      words: 'A pick-up is the first bar of a section; here it is read as an ordinary bar.',
    };
  }
  if (pulses > 0 && pulses < metre.pulses) return pulses;
  return {
    kind: 'pick-up-length',
    words:
      pulses === 0
        ? 'Nothing stands in this pick-up; write a chord, slash or r for each of its pulses.'
        : `A pick-up is shorter than a bar, and ${metre.text} has ${metre.pulses} pulses; it is read as an ordinary bar.`,
  };
};

const readRepeat = (
  barsBack: 1 | 2,
  pulses: number,
  { barBack, sounding }: BarContext,
  report: (problem: Omit<Found, 'id' | 'at'>) => void,
): CellsMade => {
  const source = barBack(barsBack);
  if (!source) {
    report({
      kind: 'nothing-to-repeat',
      words: `“${barsBack === 1 ? '%' : '%%'}” has no bar to repeat: it doesn't look past the start of its section or ending. Write the chords out.`,
    });
    const cells = [carriedCell(sounding, 0, pulses)];
    return { cells, after: sounding, lost: [] };
  }
  if (source.pulses !== pulses) {
    report({
      kind: 'repeat-of-other-length',
      words: `The bar repeated has ${source.pulses} pulses and this one ${pulses}. Write the chords out.`,
    });
  }
  return repeatCells(source.cells, pulses, sounding);
};

const emptyBar = (
  bar: Bar,
  hasNothing: boolean,
  marks: readonly Mark[],
  pulses: number,
  { sounding, barBack }: BarContext,
  report: Report,
): CellsMade => {
  if (findMark(marks, 'tacet')) {
    const rest = {
      kind: 'rest',
      symbol: '',
      atPulse: 0,
      lengthPulses: pulses,
      pushed: false,
      carried: false,
    } as const;
    return { cells: [rest], after: soundingAfter(rest, sounding), lost: [] };
  }
  if (hasNothing) {
    report(bar.left === '' ? 'bar' : 'left', {
      kind: 'empty-bar',
      words: 'Nothing stands in this bar. It counts as a bar, and the chord before goes on.',
      ...(barBack(1) ? { suggestion: '%' } : {}),
    });
  }
  const cell = carriedCell(sounding, 0, pulses);
  return { cells: [cell], after: sounding && soundingAfter(cell, sounding), lost: [] };
};

/** Where the counts of hits and kicks lie, if the bar has the like on every pass; counts without a place are reported. */
const findCounts = (
  words: readonly ReadWordToken[],
  metre: Metre,
  report: Report,
): readonly number[] | null => {
  let places: readonly number[] | null = null;
  for (const { mark, reach, index } of words) {
    if (mark?.kind !== 'hits' && mark?.kind !== 'kicks') continue;
    const here = countPulses(mark.counts, metre);
    if (!here) {
      report(index, {
        kind: 'counts-out-of-bar',
        words: `The counts ${mark.counts} have no place in ${metre.text}: count 1 to ${metre.pulses}, forwards${metre.compound ? ', with & and a between' : ', with e, & and a between'}.`,
      });
    } else if (!reach) places ??= here;
  }
  return places;
};

const shareBar = (
  timed: readonly TimeToken[],
  metre: Metre,
  pulses: number,
  counts: readonly number[] | null,
): SharedBar => {
  if (pulses !== metre.pulses || isCounted(timed)) return countOff(timed, pulses);
  if (counts?.length === timed.length) return layOnCounts(timed, counts, pulses);
  return shareOut(timed, metre);
};

/** Words stand at the token after them; behind the last token that has a place at that one. */
const placeWords = (
  words: readonly ReadWordToken[],
  tokens: readonly BarToken[],
  placed: SharedBar['placed'],
): Word[] => {
  const inBar = placed.filter(({ fromPulse, toPulse }) => fromPulse < toPulse);
  const pulseOf = new Map<BarToken, number>(inBar.map(({ token, fromPulse }) => [token, fromPulse]));
  let atPulse = inBar.at(-1)?.fromPulse ?? 0;
  const pulses: number[] = [];
  for (let index = tokens.length - 1; index >= 0; index--) {
    const token = tokens[index];
    if (token) atPulse = pulseOf.get(token) ?? atPulse;
    pulses[index] = atPulse;
  }
  return words.flatMap(({ index, text, mark, reach }): Word[] =>
    text === ''
      ? []
      : [{ text, atPulse: pulses[index] ?? 0, ...(mark ? { mark } : {}), ...(reach ? { reach } : {}) }],
  );
};
