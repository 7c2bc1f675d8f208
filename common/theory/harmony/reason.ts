import type { ChordSymbol } from '../chord-symbol.ts';
import { degreeFifths } from '../chord-tones.ts';
import { type NoteNames, noteName } from '../note-name.ts';
import { fifthsOf, noteAt } from '../pitch.ts';
import { type ChordCore, coreOf } from './chord-core.ts';
import { chordName } from './chord-name.ts';
import { aboveTonic, ownFamily } from './degree-name.ts';
import { type KeyFrame, scaleTones, sourceName } from './key-frame.ts';
import { ownWords } from './own-words.ts';
import { isWithin } from './pitch-set.ts';
import type { Sense } from './sense.ts';

/** The symbols around a chord, and how whoever reads of them calls notes. */
export interface Neighbours {
  readonly before: ChordSymbol | null;
  readonly next: ChordSymbol | null;
  readonly later: ChordSymbol | null;
  readonly names: NoteNames;
}

/** Why a chord has its numeral, in few plain words: `dominant of Gm7`, `borrowed from C minor`. */
export function reasonOf(frame: KeyFrame, sense: Sense, chord: ChordCore, near: Neighbours): string {
  const words = ownReason(frame, sense, chord, near);
  const isAlsoTwo = sense.also?.degree === 'ii' && near.next !== null;
  return isAlsoTwo && near.next ? `${words}; also ii of ${chordName(near.next, near.names)}` : words;
}

function ownReason(frame: KeyFrame, sense: Sense, chord: ChordCore, near: Neighbours): string {
  const goal = goalWords(frame, sense, near);
  const waiting = waitingWords(sense, near);
  switch (sense.job) {
    case 'tonic':
    case 'subdominant':
    case 'dominant':
      return ownWords(frame, sense, chord, { ...near, goal });
    case 'blues':
      return bluesWords(frame, sense, chord, near);
    case 'secondary dominant':
      return `dominant of ${goal}${waiting}`;
    case 'tritone substitute':
      return `stands in for ${substituted(frame, sense, near)}, a semitone above ${goal}${waiting}`;
    case 'backdoor':
      return `backdoor: a tone below ${goal}${waiting}`;
    case 'related ii':
      return `${sense.numeral.degree === 'iv' ? 'iv' : 'ii'} of ${near.next ? chordName(near.next, near.names) : goal}`;
    case 'leading diminished':
      return `leads up to ${goal}${waiting}`;
    case 'passing diminished':
      return passingWords(near, goal);
    case 'common-tone diminished':
      return `keeps the root of ${sense.goal === undefined && near.before ? chordName(near.before, near.names) : goal}`;
    case 'borrowed':
      if (chord.family === 'augmented') return 'its fifth raised in passing';
      return borrowedWords(frame, sense, chord, near);
    case 'visited':
      return near.before
        ? `home for a moment: ${chordName(near.before, near.names)} led here`
        : 'home for a moment';
    case 'sliding':
      return `slides a semitone to ${goal}`;
    case 'foreign':
      return 'not from the key';
  }
}

function borrowedWords(frame: KeyFrame, { source }: Sense, chord: ChordCore, near: Neighbours): string {
  const { family, tones } = chord;
  const scale = source ?? frame.home[0].scale;
  const words = `borrowed from ${sourceName(frame, scale, near.names)}`;
  const isBlue = family === 'dominant' && !isWithin(tones, scaleTones(scale, frame.tonic));
  if (isNeapolitan(frame, chord, near.next)) return `${words}; the Neapolitan chord`;
  return isBlue ? `${words}, with a blue seventh` : words;
}

function bluesWords(
  frame: KeyFrame,
  sense: Sense,
  { family, figure, root }: ChordCore,
  near: Neighbours,
): string {
  if (family === 'diminished') return `passes ${fromWords(near)}to ${goalWords(frame, sense, near)}`;
  const isHome = root === frame.tonic;
  if (frame.isBlues) return isHome ? 'home of the blues' : 'fourth of the blues';
  if (isHome && figure.includes('sus')) return 'home, its third suspended';
  return isHome ? 'home, with a blue seventh' : 'with a blue seventh';
}

/** ♭II as a triad before V, or before home over its fifth. */
function isNeapolitan(
  frame: KeyFrame,
  { root, family, figure }: ChordCore,
  next: ChordSymbol | null,
): boolean {
  if (aboveTonic(frame, root) !== 1 || family !== 'major' || figure !== '' || next === null) return false;
  return aboveTonic(frame, coreOf(next).bass) === 7;
}

function passingWords(near: Neighbours, goal: string): string {
  const isBackAgain = near.before !== null && chordName(near.before, near.names) === goal;
  return isBackAgain ? `leaves ${goal} by a semitone and comes back` : `passes ${fromWords(near)}to ${goal}`;
}

const fromWords = ({ before, names }: Neighbours): string =>
  before ? `from ${chordName(before, names)} ` : '';

/** The chord that the goal really is, else the one that the key has there. */
function goalWords(frame: KeyFrame, { goal }: Sense, { next, later, names }: Neighbours): string {
  if (goal === undefined) return 'home';
  if (goal.comes === 'next' && next) return chordName(next, names);
  if (goal.comes === 'later' && later) return chordName(later, names);
  if (goal.semitones === 0) return 'home';
  const own = ownFamily(frame, goal.semitones);
  const sign = goal.comes === 'replaced' ? '7' : own === 'minor' ? 'm' : own === 'diminished' ? 'ø' : '';
  return noteName(noteAbove(frame, goal.semitones), names) + sign;
}

function waitingWords({ goal }: Sense, { next, names }: Neighbours): string {
  if (goal === undefined || next === null || goal.comes === 'next') return '';
  if (goal.comes === 'never') return ', which does not come';
  if (goal.comes === 'replaced') return `, for which ${chordName(next, names)} stands in`;
  return goal.comes === 'later'
    ? `, which comes after ${chordName(next, names)}`
    : `, taken up again after ${chordName(next, names)}`;
}

const substituted = (frame: KeyFrame, { goal }: Sense, { names }: Neighbours): string =>
  `${noteName(noteAbove(frame, ((goal?.semitones ?? 0) + 7) % 12), names)}7`;

const DEGREES = ['1', 'b2', '2', 'b3', '3', '4', '#4', '5', 'b6', '6', 'b7', '7'] as const;

/** The note so many semitones above the tonic, spelled after the key. */
const noteAbove = (frame: KeyFrame, semitones: number): string =>
  noteAt(fifthsOf(frame.key.tonic) + degreeFifths(DEGREES[semitones] ?? '1'));
