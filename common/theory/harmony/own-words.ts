import type { ChordSymbol } from '../chord-symbol.ts';
import type { NoteNames } from '../note-name.ts';
import { type ChordCore, coreOf } from './chord-core.ts';
import { chordName } from './chord-name.ts';
import { aboveTonic } from './degree-name.ts';
import type { KeyFrame } from './key-frame.ts';
import { isWithin } from './pitch-set.ts';
import type { Sense } from './sense.ts';

interface Following {
  readonly next: ChordSymbol | null;
  /** What a dominant leads to, in words. */
  readonly goal: string;
  readonly names: NoteNames;
}

/** Why a chord of the key has its numeral: `home`, `prepares G7`, `dominant of the key; Am7 comes instead of home`. */
export function ownWords(frame: KeyFrame, sense: Sense, chord: ChordCore, near: Following): string {
  const source = sense.source === undefined ? '' : `, from ${sense.source}`;
  return (
    jobWords(frame, sense, chord, near) +
    source +
    raised(frame, chord) +
    afterwards(frame, sense, chord, near)
  );
}

function jobWords(frame: KeyFrame, { job, goal: wanted }: Sense, chord: ChordCore, near: Following): string {
  const { next, goal, names } = near;
  if (job === 'tonic') {
    if (chord.root !== frame.tonic) return 'stands in for home';
    const keepsWaiting =
      next !== null &&
      isOnFifth(frame, chord.bass) &&
      isOnFifth(frame, coreOf(next).root) &&
      coreOf(next).bass === chord.bass;
    return keepsWaiting ? `home over its fifth: ${chordName(next, names)} is kept waiting` : 'home';
  }
  if (job === 'subdominant') {
    return next !== null && isOnFifth(frame, coreOf(next).root)
      ? `prepares ${chordName(next, names)}`
      : 'leads away from home';
  }
  if (wanted?.comes === 'next') return `dominant of ${goal}`;
  if (!isOnFifth(frame, chord.root)) return 'leads home';
  return pullsHome(chord) ? 'dominant of the key' : 'fifth of the key, without its pull home';
}

const isOnFifth = (frame: KeyFrame, pitchClass: number): boolean => aboveTonic(frame, pitchClass) === 7;

/** It has the leading note of the key as its third, or keeps it waiting, and no other pull. */
const pullsHome = ({ family, figure }: ChordCore): boolean =>
  family === 'dominant' ||
  family === 'augmented' ||
  family === 'power' ||
  (family === 'major' && !figure.includes('△7'));

/** The key has the triad, but not the sixth or seventh on it. */
function raised(frame: KeyFrame, { family, figure, tones }: ChordCore): string {
  if (family !== 'minor' || frame.home.some((source) => isWithin(tones, source.tones))) return '';
  return figure === '6' ? ', its sixth raised' : ', its seventh raised';
}

/** A deceptive cadence: V7 to vi or ♭VI. */
function afterwards(
  frame: KeyFrame,
  { job }: Sense,
  { family }: ChordCore,
  { next, names }: Following,
): string {
  if (job !== 'dominant' || family !== 'dominant' || next === null) return '';
  const comes = coreOf(next);
  const above = aboveTonic(frame, comes.root);
  const isTurnedAside =
    (above === 8 && comes.family === 'major') || (above === 9 && comes.family === 'minor');
  return isTurnedAside ? `; ${chordName(next, names)} comes instead of home` : '';
}
