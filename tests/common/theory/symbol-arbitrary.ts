import fc from 'fast-check';

/** Roots as people type them. */
export const root: fc.Arbitrary<string> = fc
  .tuple(fc.constantFrom(...'ABCDEFG'), fc.constantFrom('', '', 'b', '#', '♭', '♯'))
  .map((pair) => pair.join(''));

const quality = fc.constantFrom(
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
);
const figure = fc.constantFrom(
  '',
  '',
  '5',
  '6',
  '69',
  '6/9',
  '7',
  '7',
  '9',
  '11',
  '13',
  '2',
  '4',
  '7M',
  '7alt',
);
const tail = fc.constantFrom(
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
);
const tails = fc.array(tail, { maxLength: 3 }).map((all) => all.join(''));
const bass = fc.oneof(
  { weight: 3, arbitrary: fc.constant('') },
  { weight: 1, arbitrary: root.map((note) => `/${note}`) },
);

/** Texts made of the parts of chord symbols, well-formed or not: about half can be read. */
export const symbolText: fc.Arbitrary<string> = fc
  .tuple(root, quality, figure, tails, bass)
  .map((all) => all.join(''));
