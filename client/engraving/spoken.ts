const SPOKEN: Readonly<Record<string, string>> = {
  '♭': ' flat ',
  '♯': ' sharp ',
  '𝄫': ' double flat ',
  '𝄪': ' double sharp ',
  '△': ' major ',
  '°': ' diminished ',
  ø: ' half-diminished ',
};

/** Music text as a screen reader should say it: `B♭7` → `B flat 7`. */
export const spoken = (text: string): string =>
  text
    .replace(/[♭♯𝄫𝄪△°ø]/gu, (sign) => SPOKEN[sign] ?? sign)
    .replace('/', ' over ')
    .replace(/\s+/g, ' ')
    .trim();
