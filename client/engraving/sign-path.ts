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
  `M${x} -77 h9 V-38 C${x + 12.5} -42.5 ${x + 17} -45.5 ${x + 22} -45.5 ` +
  `C${x + 29} -45.5 ${x + 33.5} -40.8 ${x + 33.5} -33.2 C${x + 33.5} -19.5 ${x + 20} -8 ${x} 3 Z ` +
  `M${x + 9} -26 V-11.5 C${x + 16.5} -17 ${x + 20.8} -23.6 ${x + 20.8} -30 ` +
  `C${x + 20.8} -33.4 ${x + 19.4} -35 ${x + 16.8} -35 C${x + 14} -35 ${x + 11.4} -31.6 ${x + 9} -26 Z`;

const SHARP =
  'M7 -73 h8 V7 h-8 Z M21 -77 h8 V3 h-8 Z M0 -46 L36 -56 V-43.5 L0 -33.5 Z M0 -25 L36 -35 V-22.5 L0 -12.5 Z';

const DOUBLE_SHARP =
  'M0 -50 H11 V-41.5 L16 -36 L21 -41.5 V-50 H32 V-39 H23.5 L19.5 -34 L23.5 -29 H32 V-18 H21 V-26.5 L16 -32 L11 -26.5 V-18 H0 V-29 H8.5 L12.5 -34 L8.5 -39 H0 Z';

export const SIGN_PATHS: Readonly<Record<SignName, SignPath>> = {
  flat: { widthEm: 0.365, fill: flatAt(0) },
  doubleFlat: { widthEm: 0.6, fill: `${flatAt(0)} ${flatAt(24.8)}` },
  sharp: { widthEm: 0.38, fill: SHARP },
  doubleSharp: { widthEm: 0.34, fill: DOUBLE_SHARP },
  triangle: { widthEm: 0.72, stroke: 'M6.5 -4.6 L35 -64 L63.5 -4.6 Z', strokeWidth: 10.2 },
  circle: { widthEm: 0.42, stroke: 'M20 -70.3 a15.2 15.2 0 1 1 -0.01 0 Z', strokeWidth: 10.2 },
  slashedCircle: {
    widthEm: 0.62,
    stroke: 'M30 -58.5 a23.2 23.2 0 1 1 -0.01 0 Z M6 -4.5 L54 -66',
    strokeWidth: 10.2,
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
