const PLAIN: Readonly<Record<string, string>> = {
  '♭': 'b',
  '♯': '#',
  '𝄫': 'bb',
  '𝄪': '##',
  '∆': 'Δ',
  '△': 'Δ',
  Ø: 'ø',
  '∅': 'ø',
  º: '°',
  '˚': '°',
};
const SIGNS = new RegExp(`[${Object.keys(PLAIN).join('')}]`, 'gu');
const DASHES = /[\u2010-\u2015\u2212\ufe58\ufe63\uff0d]/g;
const BLANKS = /[\p{White_Space}\u200b\u2060]/gu;

/**
 * The text with every look-alike of a sign replaced by one plain sign: ♭ ♯ 𝄫 𝄪 → `b # bb ##`,
 * the triangles → `Δ`, slashed circles → `ø`, raised circles → `°`, dashes → `-`, blanks → a space.
 *
 * Law: `plainSigns(text).length === text.length`, so that places in the plain text are places in the text
 * as typed (𝄫 and 𝄪 take two code units, as `bb` and `##` do).
 */
export function plainSigns(text: string): string {
  return text
    .replace(SIGNS, (sign) => PLAIN[sign] ?? sign)
    .replace(DASHES, '-')
    .replace(BLANKS, ' ');
}

/** The text with `b` and `#` right after a note's letter as people read them: `Bb` → `B♭`. */
export function printNote(note: string): string {
  return (
    note.slice(0, 1) +
    note.slice(1).replaceAll('##', '𝄪').replaceAll('bb', '𝄫').replace('#', '♯').replace('b', '♭')
  );
}

/** A degree as people read it: `b7` → `♭7`, `bb7` → `𝄫7`. */
export const printDegree = (degree: string): string => printNote(`C${degree}`).slice(1);
