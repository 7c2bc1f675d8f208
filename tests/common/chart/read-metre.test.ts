import { describe, expect, it } from 'vitest';
import { countOf, keyTextOf, metreOf, tempoOf } from '../../../common/chart/head.ts';
import { readChart } from '../../../common/chart/read-chart.ts';
import { readMetre } from '../../../common/chart/read-metre.ts';

describe('metres', () => {
  it.each([
    ['4/4', 4, [4], false],
    ['2/2', 2, [2], false],
    ['3/4', 3, [3], false],
    ['6/8', 2, [2], true],
    ['9/8', 3, [3], true],
    ['12/8', 4, [4], true],
    ['3/8', 3, [3], false],
    ['6/4', 6, [6], false],
    ['7/8 (2+2+3)', 7, [2, 2, 3], false],
    ['5/4 (3+2)', 5, [3, 2], false],
    ['12/8 (6+6)', 4, [2, 2], true],
    ['12/8 (2+2)', 4, [2, 2], true],
    ['9/8 (2+2+2+3)', 9, [2, 2, 2, 3], false],
  ])('[NOTE-18] %s', (text, pulses, groups, compound) => {
    expect(readMetre(text)).toMatchObject({ text, pulses, groups, compound });
  });

  it('[NOTE-18] are tidied', () => {
    expect(readMetre(' 5 / 4  ( 3 + 2 ) ')?.text).toBe('5/4 (3+2)');
  });

  it.each(['', '4', '0/4', '4/3', '4/4 (2+3)', '4/4 ()', '4/4 (4+0)', '4/4 (2++2)', '99/4', 'C', '4/4 (2+2'])(
    '[NOTE-18] there is none of the kind %j',
    (text) => expect(readMetre(text)).toBeNull(),
  );
});

describe('what the header says', () => {
  it('[NOTE-17] [NOTE-18] [NOTE-19] is taken as written', () => {
    const { chart } = readChart('tempo: 92.5\ntime: 6/8\ncount: 0\nkey: G minor');
    expect([tempoOf(chart), metreOf(chart).text, countOf(chart), keyTextOf(chart)]).toEqual([
      92.5,
      '6/8',
      0,
      'G minor',
    ]);
  });

  it('[NOTE-17] [NOTE-18] [NOTE-19] has its usual values where nothing is written or readable', () => {
    for (const text of ['', 'tempo: fast\ntime: x\ncount: many\n', 'tempo: 7\ncount: -1\ntime: 4/x']) {
      const { chart } = readChart(text);
      expect([tempoOf(chart), metreOf(chart).text, countOf(chart), keyTextOf(chart)]).toEqual([
        120,
        '4/4',
        2,
        '',
      ]);
    }
    expect(metreOf(readChart('time: 5/4 (4+2)').chart)).toMatchObject({ text: '5/4', groups: [5] });
  });
});
