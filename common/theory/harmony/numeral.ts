import { plainSigns, printDegree } from '../plain-signs.ts';

/** A Roman numeral taken apart, in plain signs. */
export interface Numeral {
  /** `V`, `ii`, `bVI`, `#IV`; `subV` for a tritone substitute. */
  readonly degree: string;
  /** What is raised after it: '', `7`, `△7`, `6`, `ø7`, `°7`, `+`, `7sus`. */
  readonly figure: string;
  /** The degree it belongs to: the `ii` of `V7/ii`. */
  readonly of?: string;
  /** The degree of the chord that is in the bass: the `5` of `I7/5`. */
  readonly bass?: string;
}

/** As people read it: `♭VII7`, `V7/ii`, `subV7/V`, `I△7/3`. Law: `readNumeral` gives the same numeral again. */
export function printNumeral({ degree, figure, of, bass }: Numeral): string {
  const parts = [withSigns(degree) + figure];
  if (of !== undefined) parts.push(withSigns(of));
  if (bass !== undefined) parts.push(withSigns(bass));
  return parts.join('/');
}

/** Signs stand before a numeral and a figure, not after as with a note. */
const withSigns = (text: string): string => text.replace(/^[b#]+/, printDegree);

const DEGREE = '(?:b|#)?(?:VII|VI|V|IV|III|II|I|vii|vi|v|iv|iii|ii|i)';
const FIGURE = '(?:△7sus2?|△7|7sus2?|6sus2?|sus2?|ø7|°△7|°7|°6|°|\\+△7|\\+7|\\+6|\\+|7|6|5)?';
const NUMERAL = new RegExp(`^(subV|${DEGREE})(${FIGURE})(?:/(${DEGREE}))?(?:/([b#]?(?:[2-9]|1[0-3])))?$`);

/**
 * The numeral of a text, `null` for anything else. ♭ and ♯, `maj7`, `Δ`, `o` and `ø` are read as well:
 * `bVIImaj7`, `viio7/V`, `iiø`.
 */
export function readNumeral(text: string): Numeral | null {
  const plain = plainSigns(text)
    .trim()
    .replace(/maj7|M7|Δ7?/, '△7')
    .replace(/(?<=[iI]|[vV])o/, '°')
    .replace(/ø7?/, 'ø7');
  const [, degree, figure, of, bass] = NUMERAL.exec(plain) ?? [];
  if (degree === undefined || figure === undefined) return null;
  return {
    degree,
    figure,
    ...(of === undefined ? {} : { of }),
    ...(bass === undefined ? {} : { bass }),
  };
}
