import { failed, ok, type Result } from '../../result.ts';
import { type NoteNames, noteName } from '../../theory/note-name.ts';
import { fifthsOf, pitchClassOf } from '../../theory/pitch.ts';
import { plainSigns } from '../../theory/plain-signs.ts';
import { readNoteName } from '../../theory/read-note-name.ts';

/** Why a tuning could not be taken, in a player's words. */
export interface TuningProblem {
  readonly kind: 'no-note' | 'too-few-strings' | 'too-many-strings' | 'octaves-needed' | 'out-of-range';
  /** What was typed for the string that is wrong; absent where the whole is. */
  readonly token?: string;
  readonly words: string;
}

/** A tuning that could be taken. */
export interface Tuning {
  /** In the order in which the strings were typed. */
  readonly openMidi: readonly number[];
  /** How a name was read that others mean otherwise; null where there is none. */
  readonly remark: string | null;
}

const STRING = /^(.*?)(-?\d+)?$/;
const FEWEST_STRINGS = 3;
const MOST_STRINGS = 10;
/** The lowest and highest string that is made: from B0 of a bass to A5 of a small lute. From memory. */
const LOWEST_MIDI = 21;
const HIGHEST_MIDI = 84;

const refused = (kind: TuningProblem['kind'], words: string, token?: string): Result<never, TuningProblem> =>
  failed(token === undefined ? { kind, words } : { kind, token, words });

/**
 * The open strings typed by their names, the string that lies lowest in the player's hands first:
 * `E2 A2 D3 G3 B3 E4` (C4 is middle C), with blanks, commas or dashes between, sharps and flats in any sign; or
 * in one word, as a tuning is called: `DADGAD`. Notes are called as the player calls them: `E2 A2 D3 G3 H3 E4`.
 *
 * Without octaves (`D A D G A D`) each string is the note nearest to that string of `like`, and of two equally
 * near the lower one, since strings are tuned down more easily than up.
 *
 * @param like the open strings that a tuning without octaves is a change of
 * @example readTuning('D A D G B E', [40, 45, 50, 55, 59, 64]) // ok: [38, 45, 50, 55, 59, 64]
 */
export function readTuning(
  typed: string,
  like: readonly number[],
  names: NoteNames = 'english',
): Result<Tuning, TuningProblem> {
  const words = signsForWords(plainSigns(typed), names)
    .split(/[\s,]+|-(?=\p{L})/u)
    .filter((word) => word !== '');
  const tokens = words.length === 1 ? words.flatMap((word) => notesOfWord(word, like.length, names)) : words;
  if (tokens.length < FEWEST_STRINGS)
    return refused(
      'too-few-strings',
      `A tuning needs at least ${FEWEST_STRINGS} strings, such as ${called('D A D G A D', names)}.`,
    );
  if (tokens.length > MOST_STRINGS)
    return refused(
      'too-many-strings',
      `These are ${tokens.length} strings; at most ${MOST_STRINGS} can be read.`,
    );
  const openMidi: number[] = [];
  for (const [string, token] of tokens.entries()) {
    const [, called = '', octave] = STRING.exec(token) ?? [];
    const name = readNoteName(called, names);
    if (name === null) return refused('no-note', noNote(token, called, names), token);
    const near = like[string];
    if (octave === undefined && (near === undefined || like.length !== tokens.length)) {
      const words = `Here are ${tokens.length} strings and the instrument has ${like.length}: type the octaves too, such as ${noteName('E', names)}2 (${noteName('C', names)}4 is middle C).`;
      return refused('octaves-needed', words, token);
    }
    const pitch = octave === undefined ? nearest(name, near ?? 0) : midiOf(name, Number(octave));
    if (pitch < LOWEST_MIDI || pitch > HIGHEST_MIDI)
      return refused(
        'out-of-range',
        `No string sounds at ${token}. ${noteName('C', names)}4 is middle C.`,
        token,
      );
    openMidi.push(pitch);
  }
  const isB = names === 'german' && tokens.some((token) => /^b-?\d*$/i.test(token));
  return ok({ openMidi, remark: isB ? 'B is read as B♭, as you call notes. The note below C is H.' : null });
}

const called = (notes: string, names: NoteNames): string =>
  notes
    .split(' ')
    .map((note) => noteName(note, names))
    .join(' ');

/** Why a token is no note, and what would be one. */
const noNote = (token: string, called: string, names: NoteNames): string => {
  if (names === 'german' && /^b(#|bb|is|es)/i.test(called)) {
    return `“${token}” can be read in two ways where B is B♭: type H, H♭, C or A, whichever you mean.`;
  }
  if (names === 'english' && /^h/i.test(called)) {
    return `“${token}” is no note as you call them: here it is B. H and B can be chosen under “Note names”.`;
  }
  const examples = ['D', 'F#', 'Bb'].map((note) => noteName(note, names));
  return `“${token}” is no note. Type notes such as ${examples[0]}, ${examples[1]} or ${examples[2]}2.`;
};

/** Words for sharps and flats, where notes are sung: `si bemolle` → `sib`. */
const signsForWords = (text: string, names: NoteNames): string =>
  names === 'solfege'
    ? text
        .replace(/\s+(doppio\s+|double[\s-]+)?b[eé]mol(?:le)?(?!\p{L})/giu, (_, twice) =>
          twice ? 'bb' : 'b',
        )
        .replace(/\s+(doppio\s+|double[\s-]+)?(?:diesis|di[eè]se)(?!\p{L})/giu, (_, twice) =>
          twice ? '##' : '#',
        )
    : text;

const IN_ONE_WORD: Readonly<Record<NoteNames, string>> = {
  english: '[A-G][#b]?',
  german: '(?:[AE]s|[A-H](?:is|es|[#b])?)',
  solfege: '(?:Do|R[eé]|Mi|Fa|Sol|La|Si|[A-G])[#b]?',
};

/** A tuning in one word: small letters are notes where there are as many as strings, for `b` may be a flat as well. */
const notesOfWord = (word: string, strings: number, names: NoteNames): readonly string[] => {
  const letters = names === 'german' ? /^[a-h]+$/i : /^[a-g]+$/i;
  if (word.length === strings && letters.test(word)) return [...word];
  const note = IN_ONE_WORD[names];
  return new RegExp(`^(?:${note})+$`).test(word) ? (word.match(new RegExp(note, 'g')) ?? [word]) : [word];
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
