import { degreeFifths } from '../chord-tones.ts';
import type { Key } from '../key.ts';
import { fifthsOf, noteAt } from '../pitch.ts';
import { keyFrame } from './key-frame.ts';
import type { Numeral } from './numeral.ts';

/** The chord that a numeral stands for. */
export interface NumeralChord {
  readonly root: string;
  /** Above the root, as those of a chord symbol. */
  readonly degrees: readonly string[];
}

const NUMBERS: Readonly<Record<string, string>> = {
  i: '1',
  ii: '2',
  iii: '3',
  iv: '4',
  v: '5',
  vi: '6',
  vii: '7',
};

/**
 * Root and degrees of a numeral in a key, exactly spelled: `V7/ii` in G major is E with `1 3 5 b7`.
 * A figure 7 is the flat seventh, as on a chord symbol; the major seventh is `△7`.
 */
export function numeralChord({ degree, figure, of }: Numeral, key: Key): NumeralChord {
  const namesAsMinor = keyFrame(key).namesAsMinor;
  const home =
    fifthsOf(key.tonic) + (of === undefined ? 0 : degreeFifths(majorScaleDegree(of, namesAsMinor)));
  const isSub = degree === 'subV';
  const own = isSub ? 'b2' : majorScaleDegree(degree, namesAsMinor && of === undefined);
  const isSmall = !isSub && degree === degree.toLowerCase();
  return { root: noteAt(home + degreeFifths(own)), degrees: degreesOf(figure, isSmall) };
}

/** `bVI` → `b6`; in a key whose degrees are named after the minor scale `VI` → `b6`, `vi` → `6`. */
function majorScaleDegree(degree: string, namesAsMinor: boolean): string {
  const sign = /^[b#]?/.exec(degree)?.[0] ?? '';
  const roman = degree.slice(sign.length);
  const number = NUMBERS[roman.toLowerCase()];
  if (number === undefined) throw new Error(`not a degree: "${degree}", expected one such as bVI`);
  const isSmall = roman === roman.toLowerCase();
  const isFlat = namesAsMinor && (number === '3' || (!isSmall && (number === '6' || number === '7')));
  if (!isFlat) return sign + number;
  return sign === '#' ? number : `${sign}b${number}`;
}

const SEVENTHS: Readonly<Record<string, readonly string[]>> = {
  '': [],
  '5': [],
  '6': ['6'],
  '7': ['b7'],
  '△7': ['7'],
};

function degreesOf(figure: string, isSmall: boolean): string[] {
  if (figure === 'ø7') return ['1', 'b3', 'b5', 'b7'];
  if (figure === '°7') return ['1', 'b3', 'b5', 'bb7'];
  if (figure.startsWith('°')) return ['1', 'b3', 'b5', ...seventh(figure.slice(1))];
  if (figure.startsWith('+')) return ['1', '3', '#5', ...seventh(figure.slice(1))];
  const [, rest = '', sus] = /^(.*?)(sus2?)?$/.exec(figure) ?? [];
  const third = sus === undefined ? (isSmall ? 'b3' : '3') : sus === 'sus2' ? '2' : '4';
  return ['1', ...(figure === '5' ? [] : [third]), '5', ...seventh(rest)];
}

function seventh(figure: string): readonly string[] {
  const degrees = SEVENTHS[figure];
  if (degrees === undefined) throw new Error(`not the figure of a numeral: "${figure}"`);
  return degrees;
}
