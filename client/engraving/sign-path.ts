/**
 * The signs inside a chord symbol, drawn with the weight of the letters beside them. Units are hundredths of
 * the font size; x grows to the right from the sign's left edge, y grows downwards from the baseline.
 */
export interface SignPath {
  readonly widthEm: number;
  /** Filled outline (even–odd). */
  readonly fill?: string;
  /** Line drawn with `strokeWidth`, ends cut square. */
  readonly stroke?: string;
  readonly strokeWidth?: number;
}

export type SignName =
  | 'flat'
  | 'sharp'
  | 'doubleFlat'
  | 'doubleSharp'
  | 'triangle'
  | 'circle'
  | 'slashedCircle';

/** A stem, and a belly that swells to the weight of a letter's stem on its right side. */
const flatAt = (x: number): string =>
  `M${x} -76 h6.4 V-36.5 C${x + 10.4} -41.5 ${x + 15} -44.5 ${x + 20} -44.5 ` +
  `C${x + 26.2} -44.5 ${x + 29.6} -40.2 ${x + 29.6} -33.4 C${x + 29.6} -20.5 ${x + 17} -9.5 ${x} 1 Z ` +
  `M${x + 6.4} -28.6 V-9.6 C${x + 15} -16.2 ${x + 19.6} -23.8 ${x + 19.6} -31 ` +
  `C${x + 19.6} -34.6 ${x + 18.2} -36.4 ${x + 15.4} -36.4 C${x + 12.2} -36.4 ${x + 9.4} -33.4 ${x + 6.4} -28.6 Z`;

const SHARP =
  'M7 -73 h6 V7 h-6 Z M20 -77 h6 V3 h-6 Z M1 -46.5 L32 -55.5 V-44.5 L1 -35.5 Z M1 -25.5 L32 -34.5 V-23.5 L1 -14.5 Z';

const DOUBLE_SHARP =
  'M0 -50 H11 V-41.5 L16 -36 L21 -41.5 V-50 H32 V-39 H23.5 L19.5 -34 L23.5 -29 H32 V-18 H21 V-26.5 L16 -32 L11 -26.5 V-18 H0 V-29 H8.5 L12.5 -34 L8.5 -39 H0 Z';

export const SIGN_PATHS: Readonly<Record<SignName, SignPath>> = {
  flat: { widthEm: 0.31, fill: flatAt(0) },
  doubleFlat: { widthEm: 0.53, fill: `${flatAt(0)} ${flatAt(22.4)}` },
  sharp: { widthEm: 0.34, fill: SHARP },
  doubleSharp: { widthEm: 0.34, fill: DOUBLE_SHARP },
  triangle: { widthEm: 0.72, stroke: 'M6.5 -4.6 L35 -64 L63.5 -4.6 Z', strokeWidth: 9.2 },
  circle: { widthEm: 0.42, stroke: 'M20 -70.3 a15.2 15.2 0 1 1 -0.01 0 Z', strokeWidth: 9.2 },
  slashedCircle: {
    widthEm: 0.62,
    stroke: 'M30 -58.5 a23.2 23.2 0 1 1 -0.01 0 Z M6 -4.5 L54 -66',
    strokeWidth: 9.2,
  },
};

const SIGNS: Readonly<Record<string, SignName>> = {
  '♭': 'flat',
  '♯': 'sharp',
  '𝄫': 'doubleFlat',
  '𝄪': 'doubleSharp',
  '△': 'triangle',
  '°': 'circle',
  ø: 'slashedCircle',
};

/** The sign that stands for a character of a drawn symbol, or null for an ordinary letter or figure. */
export const signFor = (character: string): SignName | null => SIGNS[character] ?? null;
