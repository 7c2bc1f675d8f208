import { failed, ok, type Result } from '../../result.ts';
import { fifthsOf, NOTE_PATTERN, pitchClassOf } from '../../theory/pitch.ts';
import { plainSigns } from '../../theory/plain-signs.ts';

/** Why a tuning could not be taken, in a player's words. */
export interface TuningProblem {
  readonly kind: 'no-note' | 'too-few-strings' | 'too-many-strings' | 'octaves-needed' | 'out-of-range';
  /** What was typed for the string that is wrong; absent where the whole is. */
  readonly token?: string;
  readonly words: string;
}

const STRING = new RegExp(`^(${NOTE_PATTERN})(-?\\d+)?$`);
const FEWEST_STRINGS = 3;
const MOST_STRINGS = 10;
/** The lowest and highest string that is made: from B0 of a bass to A5 of a small lute. From memory. */
const LOWEST_MIDI = 21;
const HIGHEST_MIDI = 84;

const refused = (kind: TuningProblem['kind'], words: string, token?: string): Result<never, TuningProblem> =>
  failed(token === undefined ? { kind, words } : { kind, token, words });

/**
 * The MIDI pitches of open strings typed by their names, the string that lies lowest in the player's hands first:
 * `E2 A2 D3 G3 B3 E4` (C4 is middle C), with blanks, commas or dashes between, sharps and flats in any sign; or
 * in one word, as a tuning is called: `DADGAD`.
 *
 * Without octaves (`D A D G A D`) each string is the note nearest to that string of `like`, and of two equally
 * near the lower one, since strings are tuned down more easily than up.
 *
 * @param like the open strings that a tuning without octaves is a change of
 * @example readTuning('D A D G B E', [40, 45, 50, 55, 59, 64]) // ok: [38, 45, 50, 55, 59, 64]
 */
export function readTuning(typed: string, like: readonly number[]): Result<readonly number[], TuningProblem> {
  const words = plainSigns(typed)
    .split(/[\s,]+|(?<=[\dA-Gb#])-(?=[A-G])/i)
    .filter((word) => word !== '');
  const tokens = words.length === 1 ? words.flatMap((word) => notesOfWord(word, like.length)) : words;
  if (tokens.length < FEWEST_STRINGS)
    return refused(
      'too-few-strings',
      `A tuning needs at least ${FEWEST_STRINGS} strings, such as D A D G A D.`,
    );
  if (tokens.length > MOST_STRINGS)
    return refused(
      'too-many-strings',
      `These are ${tokens.length} strings; at most ${MOST_STRINGS} can be read.`,
    );
  const midi: number[] = [];
  for (const [string, token] of tokens.entries()) {
    const [, name, octave] = STRING.exec(token.slice(0, 1).toUpperCase() + token.slice(1)) ?? [];
    if (name === undefined)
      return refused('no-note', `“${token}” is no note. Type notes such as D, F# or Bb2.`, token);
    const near = like[string];
    if (octave === undefined && (near === undefined || like.length !== tokens.length)) {
      const words = `Here are ${tokens.length} strings and the instrument has ${like.length}: type the octaves too, such as E2 (C4 is middle C).`;
      return refused('octaves-needed', words, token);
    }
    const pitch = octave === undefined ? nearest(name, near ?? 0) : midiOf(name, Number(octave));
    if (pitch < LOWEST_MIDI || pitch > HIGHEST_MIDI)
      return refused('out-of-range', `No string sounds at ${token}. C4 is middle C.`, token);
    midi.push(pitch);
  }
  return ok(midi);
}

/** A tuning in one word: small letters are notes where there are as many as strings, for `b` may be a flat as well. */
const notesOfWord = (word: string, strings: number): readonly string[] => {
  if (word.length === strings && /^[a-g]+$/i.test(word)) return [...word];
  return /^(?:[A-G][#b]?)+$/.test(word) ? (word.match(/[A-G][#b]?/g) ?? [word]) : [word];
};

/** Cb4 lies below C4, B#3 above B3: the octave is that of the letter. */
const midiOf = (name: string, octave: number): number => {
  const letter = name.slice(0, 1);
  const alteration = (fifthsOf(name) - fifthsOf(letter)) / 7;
  return 12 * (octave + 1) + pitchClassOf(letter) + alteration;
};

const nearest = (name: string, midi: number): number => {
  const up = (((pitchClassOf(name) - midi) % 12) + 12) % 12;
  return up < 6 ? midi + up : midi + up - 12;
};
