import type { NoteNames } from '../note-name.ts';
import type { ChordAnalysis, TimedSymbol } from './analyse.ts';
import { chordName } from './chord-name.ts';
import { semitonesUp } from './pitch-set.ts';
import { type Progression, progressionOf } from './progression.ts';

/** Chords that belong together, to be drawn under one bracket. Indices of the list, ends included. */
export interface Bracket {
  readonly kind: 'ii–V' | 'ii–subV' | 'backdoor' | 'dominants' | 'turnaround';
  readonly from: number;
  /** The last dominant. Where it resolves, the arrow to its goal is `leadsTo` of its analysis. */
  readonly to: number;
  /** `ii–V–I`, `ii–V to Gm7`, `backdoor`, `three dominants in a row`. */
  readonly words: string;
}

const NUMBERS = ['', '', '', 'three', 'four', 'five', 'six', 'seven', 'eight'] as const;

/**
 * Every ii–V (a minor or half-diminished seventh that falls a fifth to a dominant, known by that shape alone:
 * Open Music Theory, "ii–V–I"), the backdoor's iv–♭VII, and rows of three or more dominants that lead one to the next.
 * @param names how whoever reads the words calls notes
 */
export function bracketsOf(
  chords: readonly TimedSymbol[],
  analyses: readonly ChordAnalysis[],
  names: NoteNames = 'english',
): Bracket[] {
  const progression = progressionOf(chords.map(({ symbol }) => symbol));
  const starts = chords.flatMap((_, i) => (isStart(progression, i) ? [i] : []));
  const twos = starts.flatMap((from): Bracket[] => {
    const dominant = progression.neighbours[from]?.next ?? -1;
    const kind = twoFive(progression, from, dominant, analyses);
    if (kind === null) return [];
    return [
      {
        kind,
        from,
        to: lastOf(progression, dominant),
        words: wordsOf(kind, dominant, chords, analyses, names),
      },
    ];
  });
  return [...twos, ...dominantRows(progression, starts, analyses)].sort((a, b) => a.from - b.from);
}

const isStart = ({ neighbours }: Progression, index: number): boolean =>
  neighbours[index]?.before === index - 1;

/** The last chord of the same root and family. */
function lastOf({ neighbours }: Progression, index: number): number {
  let last = index;
  while (last + 1 < neighbours.length && neighbours[last + 1]?.before === neighbours[index]?.before) last++;
  return last;
}

function twoFive(
  { cores }: Progression,
  from: number,
  to: number,
  analyses: readonly ChordAnalysis[],
): Bracket['kind'] | null {
  const [two, five, analysis] = [cores[from], cores[to], analyses[to]];
  if (!two || !five || !analysis || five.family !== 'dominant') return null;
  if (two.family !== 'half-diminished' && !(two.family === 'minor' && /^7?$/.test(two.figure))) return null;
  const falls = semitonesUp(two.root, five.root);
  if (takesTurns(analyses[from], analysis)) return null;
  if (falls === 5) return analysis.job === 'backdoor' ? 'backdoor' : 'ii–V';
  return falls === 11 && analysis.job === 'tritone substitute' ? 'ii–subV' : null;
}

/** i7 and IV7 of a dorian vamp, v7 and I7 of a mixolydian one: the dominant is home, or waits for nothing. */
const takesTurns = (two: ChordAnalysis | undefined, five: ChordAnalysis): boolean =>
  five.leadsTo === null && (five.job === 'tonic' || (two?.job === 'tonic' && two.numeral.degree === 'i'));

function wordsOf(
  kind: Bracket['kind'],
  dominant: number,
  chords: readonly TimedSymbol[],
  analyses: readonly ChordAnalysis[],
  names: NoteNames,
): string {
  const { leadsTo, goal: wanted } = analyses[dominant] as ChordAnalysis;
  if (leadsTo === null) return kind;
  if (wanted?.semitones === 0) return kind === 'backdoor' ? 'backdoor' : `${kind}–I`;
  const goal = chords[leadsTo.index];
  return goal ? `${kind} to ${chordName(goal.symbol, names)}` : kind;
}

function dominantRows(
  progression: Progression,
  starts: readonly number[],
  analyses: readonly ChordAnalysis[],
): Bracket[] {
  const rows: Bracket[] = [];
  const inRow = new Set<number>();
  for (const from of starts) {
    if (inRow.has(from)) continue;
    const row: number[] = [];
    let at = from;
    while (progression.cores[at]?.family === 'dominant' && !row.includes(at)) {
      row.push(at);
      const next = progression.neighbours[at]?.next ?? -1;
      if (analyses[at]?.leadsTo?.index !== next) break;
      at = next;
    }
    if (row.length < 3) continue;
    for (const each of row) inRow.add(each);
    const words = `${NUMBERS[row.length] ?? row.length} dominants in a row`;
    rows.push({ kind: 'dominants', from, to: lastOf(progression, row.at(-1) ?? from), words });
  }
  return rows;
}
