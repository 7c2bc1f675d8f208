import { type NoteNames, SYLLABLES } from './note-name.ts';
import { plainSigns } from './plain-signs.ts';

const LETTER_OF: ReadonlyMap<string, string> = new Map(
  Object.entries(SYLLABLES).map(([letter, syllable]) => [syllable.toLowerCase(), letter]),
);
const ENGLISH = /^([a-g])(bb|##|b|#)?$/i;
const GERMAN = /^(?:([a-h])(isis|eses|is|es|bb|##|b|#)?|([ae])(ses|s))$/i;
const SOLFEGE = /^(do|re|ré|mi|fa|sol|la|si)(bb|##|b|#)?$/i;
const SIGN_OF: Readonly<Record<string, string>> = {
  isis: '##',
  is: '#',
  es: 'b',
  s: 'b',
  eses: 'bb',
  ses: 'bb',
};

/**
 * The note that somebody means who calls notes so, in plain signs; `null` where it is none. The other way round of
 * `noteName`; capitals don't matter. In German `H`, `B` and `Bb` are B, B♭ and B♭, and the syllables are read (`Fis`, `Es`);
 * `B#` and `Bbb`, which mean two notes, are none. Where syllables are sung, letters are read as well.
 *
 * Law: `readNoteName(noteName(note, names), names) === note` for every note with at most two signs.
 * @example readNoteName('B', 'german') // 'Bb'
 */
export function readNoteName(text: string, names: NoteNames): string | null {
  const plain = plainSigns(text);
  if (names === 'german') return readGerman(plain);
  const [, syllable, sung = ''] = (names === 'solfege' && SOLFEGE.exec(plain)) || [];
  if (syllable !== undefined) {
    return (LETTER_OF.get(syllable.toLowerCase().replace('é', 'e')) ?? '') + sung.toLowerCase();
  }
  const [, letter, signs = ''] = ENGLISH.exec(plain) ?? [];
  return letter === undefined ? null : letter.toUpperCase() + signs.toLowerCase();
}

function readGerman(plain: string): string | null {
  const [, letter, signs = '', vowel, short = ''] = GERMAN.exec(plain) ?? [];
  const name = (letter ?? vowel)?.toUpperCase();
  if (name === undefined) return null;
  const typed = (signs || short).toLowerCase();
  const sign = SIGN_OF[typed] ?? typed;
  if (name === 'B') return sign === '' || sign === 'b' ? 'Bb' : null;
  return (name === 'H' ? 'B' : name) + sign;
}
