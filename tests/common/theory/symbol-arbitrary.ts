import fc from 'fast-check';
import { readChordSymbol } from '../../../common/theory/chord-symbol.ts';

/** Roots as people type them. */
export const root: fc.Arbitrary<string> = fc
  .tuple(fc.constantFrom(...'ABCDEFG'), fc.constantFrom('', '', 'b', '#', '♭', '♯'))
  .map((pair) => pair.join(''));

/** The parts of which a symbol is made, as people type them. */
const QUALITIES = [
  ...[
    '',
    '',
    'm',
    'mi',
    'min',
    '-',
    'MI',
    'maj',
    'M',
    'ma',
    'MA',
    'Δ',
    '△',
    'dim',
    '°',
    'o',
    'ø',
    'aug',
    '+',
    'sus',
  ],
  ...['m(maj7)', '-Δ', 'mM', 'm/maj', 'aug maj', '+M', '°M', 'sus2', 'sus24', 'alt', 'dom'],
];
const quality = fc.constantFrom(...QUALITIES);
const FIGURES = ['', '', '5', '6', '69', '6/9', '7', '7', '9', '11', '13', '2', '4', '7M', '7alt'];
const figure = fc.constantFrom(...FIGURES);
const TAILS = [
  ...[
    'b5',
    '#5',
    'b9',
    '#9',
    '#11',
    'b13',
    '♭9',
    '-5',
    '+9',
    '+',
    'b6',
    '#4',
    '(b9 #11)',
    '(b9,13)',
    '(9)',
    '(13)',
  ],
  ...[
    'sus',
    'sus4',
    'sus2',
    'susb9',
    'add9',
    'add11',
    'add2',
    'add4',
    '(add 13)',
    'add#11',
    'addb9',
    'no3',
    'no5',
  ],
  ...[
    '(omit5)',
    'noroot',
    '(maj7)',
    '/9',
    '/#11',
    '(no 3rd)',
    'b7',
    '#7',
    '(7)',
    '(11)',
    'add6',
    'add3',
    '(6)',
    'sus#4',
  ],
];
const tail = fc.constantFrom(...TAILS);
const tails = fc.array(tail, { maxLength: 3 }).map((all) => all.join(''));
const bass = fc.oneof(
  { weight: 3, arbitrary: fc.constant('') },
  { weight: 1, arbitrary: root.map((note) => `/${note}`) },
);

/** Of texts that can be read, the first one of each kind of chord. */
const firstOfEachKind = (texts: Iterable<string>): readonly string[] => {
  const kinds = new Map<string, string>();
  for (const text of texts) {
    const symbol = readChordSymbol(`C${text}`);
    if (symbol?.root !== 'C' || symbol.bass !== undefined) continue;
    const name = symbol.degrees.join();
    if (!kinds.has(name)) kinds.set(name, text);
  }
  return [...kinds.values()];
};

/** The kinds of chord that can be read, each in one spelling, with so many additions at most. */
export const everyKind = (additions: 0 | 1 | 2): readonly string[] => {
  if (additions === 0)
    return firstOfEachKind(QUALITIES.flatMap((kind) => FIGURES.map((number) => kind + number)));
  const simpler = everyKind(additions === 1 ? 0 : 1);
  return firstOfEachKind(simpler.flatMap((kind) => ['', ...TAILS].map((more) => kind + more)));
};

/** Texts made of the parts of chord symbols, well-formed or not: about half can be read. */
export const symbolText: fc.Arbitrary<string> = fc
  .tuple(root, quality, figure, tails, bass)
  .map((all) => all.join(''));
