import { describe, expect, it } from 'vitest';
import { readChart } from '../../../common/chart/read-chart.ts';
import { lostSpots, type RankedSpot } from '../../../common/form/lost-spots/lost-spots.ts';
import { unroll } from '../../../common/form/unroll.ts';

/**
 * Forms of 10, 11, 13 and 14 bars. What is expected was counted by hand on the charts; the weights are those of
 * RULES.md.
 */
const spotsOf = (key: string, sections: string, leg = 'Solos'): readonly RankedSpot[] => {
  const { road } = unroll(readChart(`key: ${key}\n\n${sections}\n`).chart);
  const at = road.legs.findIndex(({ name }) => name === leg);
  return lostSpots(road)[at]?.spots ?? [];
};

type Told = readonly [
  kind: string,
  bars: string,
  throwsIn: number,
  weight: number,
  announce: string,
  reason: string,
];

/** Each spot as a musician would point at it: bars from 1; the bar after the last one is the top. */
const told = (spots: readonly RankedSpot[]): Told[] =>
  spots.map(({ kind, fromBar, toBar, atBar, weight, announce, reason }) => [
    kind,
    `${fromBar + 1}–${toBar + 1}`,
    atBar + 1,
    weight,
    announce,
    reason,
  ]);

describe('forms of ten bars', () => {
  it('[LOST-1] [LOST-2] [LOST-3] [LOST-4] four and six, two bars of the tonic before the top', () => {
    const chart = `[A]
| Ebmaj7 | Cm7 | Fm7 | Bb7 |
| Ebmaj7 | Cm7 | Abmaj7 | Abm6 | Ebmaj7 | % |`;
    expect(told(spotsOf('Eb', chart))).toEqual([
      ['formLength', '1–10', 9, 60, '10 bars: 9 is not the top', '10 bars, which is no multiple of eight'],
      ['seam', '9–1', 11, 55, 'same chord for 3: count 2 + 1', '3 bars over the top: 2 + 1 of E♭△7'],
      ['oddPhrase', '5–10', 9, 40, '6 bars from 5, not 4', 'a phrase of 6 bars, 5 to 10'],
      [
        'partsLater',
        '5–7',
        7,
        33,
        'like 1 to 2, then A♭△7',
        'bars 5–6 are 1–2 again, but bar 7 has A♭△7, not Fm7',
      ],
    ]);
  });

  it('[LOST-1] [LOST-7] a long chord that goes on over the top is told once, with its split', () => {
    const chart = `[A]
| Dm7 | % | % | % |
| Em7 | % | % | % |
| Dm7 | % |`;
    expect(told(spotsOf('D minor', chart))).toEqual([
      ['seam', '9–4', 11, 85, 'same chord for 6: count 2 + 4', '6 bars over the top: 2 + 4 of Dm7'],
      ['formLength', '1–10', 9, 60, '10 bars: 9 is not the top', '10 bars, which is no multiple of eight'],
      ['oddPhrase', '9–10', 10, 40, '2 bars from 9, not 4', 'a phrase of 2 bars, 9 to 10'],
    ]);
  });
});

describe('forms of eleven bars', () => {
  it('[LOST-1] [LOST-2] [LOST-3] a blues without its last bar', () => {
    const chart = `[A]
| F7 | Bb7 | F7 | % |
| Bb7 | % | F7 | D7 |
| Gm7 | C7 | F7 |`;
    const expected = [
      [
        'formLength',
        '1–11',
        11,
        80,
        'only 11 bars: after 11 comes the top',
        '11 bars, where a blues usually has 12',
      ],
      ['oddPhrase', '9–11', 11, 55, '3 bars from 9, not 4', 'a phrase of 3 bars, 9 to 11'],
      ['seam', '11–1', 12, 30, 'same chord for 2: count 1 + 1', '2 bars over the top: 1 + 1 of F7'],
    ];
    expect(told(spotsOf('F blues', chart))).toEqual(expected);
    // The changes say it as well as the key does.
    expect(told(spotsOf('F', chart))).toEqual(expected);
    expect(spotsOf('F blues', chart).map(({ announceFromBar }) => announceFromBar + 1)).toEqual([9, 9, 9]);
  });

  it('[LOST-1] [LOST-3] half a bar of another chord before the top', () => {
    const chart = `[A]
| F | % | Bb | F |
| Dm | Gm | C7 | F |
| Bb | C7 | F C7 |`;
    expect(told(spotsOf('F', chart))).toEqual([
      ['formLength', '1–11', 9, 60, '11 bars: 9 is not the top', '11 bars, which is no multiple of eight'],
      ['oddPhrase', '9–11', 11, 55, '3 bars from 9, not 4', 'a phrase of 3 bars, 9 to 11'],
      [
        'seam',
        '11–2',
        12,
        45,
        'same chord for 3: listen for C7 in 11',
        '3 bars over the top: 1 + 2 of F; only C7 stands between',
      ],
    ]);
  });

  it('[LOST-3] [LOST-6] [LOST-7] six bars of one chord, then five with a short one', () => {
    const chart = `[A]
| Dm7 | % | % | % | % | % |
[B]
| Gm7 | % | "2/4" A7 | "4/4" Dm7 | A7 |`;
    expect(told(spotsOf('D minor', chart))).toEqual([
      ['metre', '9–9', 9, 70, '2/4 in 9', '1 bar of 2/4 from 9, else 4/4'],
      ['formLength', '1–11', 9, 60, '11 bars: 9 is not the top', '11 bars, which is no multiple of eight'],
      ['oddPhrase', '7–11', 11, 55, '5 bars from 7, not 4', 'a phrase of 5 bars, 7 to 11'],
      ['oddPhrase', '1–6', 5, 40, '6 bars from 1, not 4', 'a phrase of 6 bars, 1 to 6'],
      ['longChord', '1–6', 7, 30, '6 bars of Dm7: Gm7 in 7', '6 bars of Dm7 from 1'],
    ]);
  });
});

describe('forms of thirteen bars', () => {
  it('[LOST-2] [LOST-3] [LOST-4] [LOST-5] two fours and a five with a break', () => {
    const chart = `[A]
| Gm | % | Cm | % |
| Gm | % | Cm | D7 |
[B]
| Eb | F | "break" Gm r r r | Gm | D7 |`;
    expect(told(spotsOf('G minor', chart))).toEqual([
      [
        'formLength',
        '1–13',
        13,
        60,
        'only 13 bars: after 13 comes the top',
        '13 bars, which is no multiple of eight',
      ],
      ['oddPhrase', '9–13', 13, 55, '5 bars from 9, not 4', 'a phrase of 5 bars, 9 to 13'],
      [
        'break',
        '11–11',
        11,
        50,
        'break in 11, in again at 12',
        'a break of 1 bar in 11; all come in again at 12',
      ],
      [
        'partsLater',
        '5–8',
        8,
        37,
        'like 1 to 3, then D7',
        'bars 5–7 are 1–3 again, but bar 8 has D7, not Cm',
      ],
    ]);
  });

  it('[LOST-3] [LOST-4] five, three and five: the last begins like the first', () => {
    const chart = `[A]
| C | Am | F | G | G |
| Em | A7 | D7 |
| C | Am | F | G | C |`;
    expect(told(spotsOf('C', chart))).toEqual([
      [
        'formLength',
        '1–13',
        13,
        60,
        'only 13 bars: after 13 comes the top',
        '13 bars, which is no multiple of eight',
      ],
      ['oddPhrase', '1–5', 5, 55, '5 bars from 1, not 4', 'a phrase of 5 bars, 1 to 5'],
      ['oddPhrase', '6–8', 8, 55, '3 bars from 6, not 4', 'a phrase of 3 bars, 6 to 8'],
      ['oddPhrase', '9–13', 13, 55, '5 bars from 9, not 4', 'a phrase of 5 bars, 9 to 13'],
      [
        'partsLater',
        '9–13',
        13,
        41,
        'like 1 to 4, then C',
        'bars 9–12 are 1–4 again, but bar 13 has C, not G',
      ],
      ['seam', '13–1', 14, 30, 'same chord for 2: count 1 + 1', '2 bars over the top: 1 + 1 of C'],
    ]);
  });
});

describe('forms of fourteen bars', () => {
  const long = `[A]
| Bb7 | % | % | % |
| Eb7 | % | Bb7 | % |
| Cm7 | F7 | Dm7 | G7 | F7 | "fill" Bb7 |`;

  it('[LOST-1] [LOST-2] a blues two bars too long, five bars of one chord over the top', () => {
    expect(told(spotsOf('Bb', long))).toEqual([
      ['formLength', '1–14', 13, 80, '14 bars: 13 is not the top', '14 bars, where a blues usually has 12'],
      [
        'seam',
        '14–4',
        15,
        65,
        'same chord for 5: listen for the fill in 14',
        '5 bars over the top: 1 + 4 of B♭7',
      ],
      ['oddPhrase', '9–14', 13, 40, '6 bars from 9, not 4', 'a phrase of 6 bars, 9 to 14'],
    ]);
    expect(told(spotsOf('Bb', long.replace('"fill" ', '')))[1]).toEqual([
      'seam',
      '14–4',
      15,
      75,
      'same chord for 5: count 1 + 4',
      '5 bars over the top: 1 + 4 of B♭7',
    ]);
  });

  it('[LOST-1] [LOST-8] the melody tells a fifth of it', () => {
    expect(told(spotsOf('Bb', long, 'Head'))).toEqual([
      ['formLength', '1–14', 13, 64, '14 bars: 13 is not the top', '14 bars, where a blues usually has 12'],
      [
        'seam',
        '14–4',
        15,
        52,
        'same chord for 5: listen for the fill in 14',
        '5 bars into the next leg: 1 + 4 of B♭7',
      ],
      ['oddPhrase', '9–14', 13, 32, '6 bars from 9, not 4', 'a phrase of 6 bars, 9 to 14'],
    ]);
  });

  it('[LOST-1] [LOST-5] all are out in the last two bars', () => {
    const chart = `[A]
| A | E7 | A | D |
| A | E7 | B7 | E7 |
[B]
| F#m | D | A | E7 | "break 2" A | A |`;
    expect(told(spotsOf('A', chart))).toEqual([
      [
        'break',
        '13–14',
        13,
        70,
        'break in 13, in again at the top',
        'a break of 2 bars in 13; all come in again at the top',
      ],
      [
        'formLength',
        '1–14',
        14,
        60,
        'only 14 bars: after 14 comes the top',
        '14 bars, which is no multiple of eight',
      ],
      ['seam', '13–1', 15, 45, 'same chord for 3: the break in 13 tells', '3 bars over the top: 2 + 1 of A'],
      ['oddPhrase', '9–14', 13, 40, '6 bars from 9, not 4', 'a phrase of 6 bars, 9 to 14'],
      ['partsLater', '5–7', 7, 33, 'like 1 to 2, then B7', 'bars 5–6 are 1–2 again, but bar 7 has B7, not A'],
    ]);
  });
});
