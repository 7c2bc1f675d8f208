import { describe, expect, it } from 'vitest';
import { readChart } from '../../../common/chart/read-chart.ts';
import { DEMO_BAND } from '../../../common/demo/demo-band.ts';
import type { PassHarmony } from '../../../common/form/pass-harmony.ts';
import { harmonyByBar, roadHarmony } from '../../../common/form/road-harmony.ts';
import { unroll } from '../../../common/form/unroll.ts';
import { printNumeral } from '../../../common/theory/harmony/numeral.ts';
import { printKey, readKey } from '../../../common/theory/key.ts';
import { readingFor } from '../../../common/theory/transpose.ts';

const roadOf = (text: string) => unroll(readChart(text).chart).road;
const demo = (id: string) => roadOf(DEMO_BAND.charts.find((each) => each.id === id)?.text ?? '');

/** The pass of the leg of that name. */
const passOf = (
  road: ReturnType<typeof roadOf>,
  name: string,
  ...more: [reading?: Parameters<typeof roadHarmony>[1]]
) => {
  const index = road.legs.findIndex((leg) => leg.name === name);
  const harmony = roadHarmony(road, ...more)[index];
  if (!harmony) throw new Error(`no leg ${name}`);
  return harmony;
};
const numerals = ({ chords }: PassHarmony): string =>
  chords.map(({ analysis }) => printNumeral(analysis.numeral)).join(' ');

describe('the harmony of a road', () => {
  it('[ROAD-25] the last chord leads to the top', () => {
    const { pass } = passOf(demo('ropewalk'), 'Solos');
    expect(numerals(pass)).toBe('I7 IV7 I7 ii7/IV I7 IV7 ♯IV°7 I7/5 iiø7/ii V7/ii ii7 V7 iii7 V7/ii ii7 V7');
    expect(pass.chords.at(-1)?.analysis.leadsTo).toEqual({ index: pass.chords.length, by: 'fifth' });
    expect(pass.chords.at(-1)?.analysis.reason).toBe('dominant of F7');
  });

  it('[ROAD-25] a leg played once leads to the next one', () => {
    const road = roadOf(
      'key: C\n[A]\n| Dm7 | A7 |\n[B]\n| Dm7 | G7 |\n[C]\n| Fmaj7 | C |\n\nroad:\n X: A\n Y: B\n Z: C\n',
    );
    expect(passOf(road, 'X').pass.chords.at(-1)?.analysis.reason).toBe('dominant of Dm7');
    expect(passOf(road, 'Y').pass.chords.at(-1)?.analysis.reason).toBe('dominant of the key');
    expect(passOf(road, 'Z').pass.chords.at(-1)?.analysis.leadsTo).toBeNull();
  });

  it('[ROAD-25] what is no chord has no harmony, and breaks nothing', () => {
    const { pass } = passOf(roadOf('key: C\n[A]\n| Dm7 r r r | N.C. | Hq7 | G7 |\n'), 'Solos');
    expect(pass.chords.map(({ barIndex, cell, symbol }) => [barIndex, cell, symbol.typed])).toEqual([
      [0, 0, 'Dm7'],
      [3, 0, 'G7'],
    ]);
    expect(numerals(pass)).toBe('ii7 V7');
    expect(roadHarmony(roadOf(''))).toEqual([]);
  });

  it('[ROAD-25] the last pass has its own harmony where its bars are others', () => {
    const { pass, lastPass } = passOf(demo('crate-of-lemons'), 'Head out');
    expect(lastPass === undefined ? '' : numerals(lastPass)).toContain('iiø7/V V7/V VI△7 iiø7 V7');
    expect(numerals(pass)).not.toContain('V7/V');
  });

  it('[ROAD-26] is read in the reader’s key, with the same numerals', () => {
    for (const { text } of DEMO_BAND.charts) {
      const road = roadOf(text);
      const concert = roadHarmony(road);
      for (const semitones of [2, 9, -1, 6]) {
        const reading = readingFor(readKey(road.key), semitones);
        const read = roadHarmony(road, reading);
        expect(read.map(({ pass }) => numerals(pass))).toEqual(concert.map(({ pass }) => numerals(pass)));
      }
    }
    const reading = readingFor(readKey('F blues'), 14);
    expect(passOf(demo('ropewalk'), 'Solos', reading).pass.chords[3]?.analysis.reason).toBe('ii of G7');
  });

  it('[ROAD-26] keys that are written and keys that are not', () => {
    const { pass } = passOf(demo('lantern-boat'), 'Head');
    expect(pass.keys.map(({ key, isAway }) => [printKey(key), isAway])).toEqual([
      ['D major', false],
      ['F major', false],
      ['D major', false],
    ]);
    const away = '[A]\n| C | % | Ebm7 | Ab7 |\n| Dbmaj7 | % | % | % |\n| Dm7 | G7 | C | % |\n';
    expect(
      passOf(roadOf(`key: C\n${away}`), 'Head').pass.keys.map(({ key, isAway, from, to }) => [
        printKey(key),
        isAway,
        from,
        to,
      ]),
    ).toEqual([
      ['C major', false, 0, 1],
      ['D♭ major', true, 2, 7],
      ['C major', false, 8, 11],
    ]);
    expect(
      printKey(passOf(roadOf(away), 'Head').pass.keys[0]?.key ?? { tonic: '', mode: 'major', fifths: 0 }),
    ).toBe('C major');
  });

  it('[ROAD-27] a written bar has the harmony of the first place at which it is played', () => {
    const road = roadOf('key: C\n[A]\n| Dm7 | A7 |\n[B]\n| Dm7 | G7 |\n\nroad:\n X: A B A\n Y: A A\n');
    const byBar = harmonyByBar(roadHarmony(road));
    expect(byBar.size).toBe(4);
    const [leg] = road.legs;
    const chords = byBar.get(leg?.bars[1]?.id ?? '') ?? [];
    expect(chords.map(({ barIndex, analysis }) => [barIndex, printNumeral(analysis.numeral)])).toEqual([
      [1, 'V7/ii'],
    ]);
  });

  it('[ROAD-28] the turnaround, under one bracket', () => {
    const { pass } = passOf(demo('ropewalk'), 'Solos');
    const turnaround = pass.brackets.find(({ kind }) => kind === 'turnaround');
    expect(
      pass.chords.slice(turnaround?.from, (turnaround?.to ?? 0) + 1).map(({ symbol }) => symbol.typed),
    ).toEqual(['Am7', 'D7b9', 'Gm7', 'C7']);
    expect(pass.brackets.filter(({ from }) => from >= (turnaround?.from ?? 0))).toHaveLength(1);
    const plain = roadOf('key: C\n[A]\n| C | F | Dm7 | G7 |\n');
    expect(passOf(plain, 'Solos').pass.brackets.map(({ words }) => words)).toEqual(['ii–V–I']);
  });
});
