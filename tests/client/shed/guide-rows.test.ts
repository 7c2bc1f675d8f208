import { describe, expect, it } from 'vitest';
import { guideRows, plotBars } from '../../../client/shed/guide-rows.ts';
import { readChart } from '../../../common/chart/read-chart.ts';
import { unroll } from '../../../common/form/unroll.ts';
import { roadHelp } from '../../../common/help/road-help.ts';
import { studyPasses } from '../../../common/help/study-pass.ts';
import { CONCERT } from '../../../common/theory/transpose.ts';

const roadOf = (text: string) => unroll(readChart(text).chart).road;

const rowsOf = (text: string) => {
  const road = roadOf(text);
  const [leg] = roadHelp(road, { kind: 'guides' }, CONCERT);
  return guideRows(road.legs[0]?.bars ?? [], (bar) => bar.content.music, leg?.pass ?? []);
};

describe('the plot of the guide tones', () => {
  it('has as many bars side by side as can be read: four on a phone, twelve at most', () => {
    expect([358, 780, 1060, 1800].map(plotBars)).toEqual([4, 9, 12, 12]);
    const bars = '| C7 | F7 | C7 | C7 | F7 | F7 | C7 | C7 | G7 | F7 | C7 | G7 |';
    const road = roadOf(`key: C\n[A]\n${bars}\n`);
    const [leg] = roadHelp(road, { kind: 'guides' }, CONCERT);
    const rows = guideRows(road.legs[0]?.bars ?? [], (bar) => bar.content.music, leg?.pass ?? [], 4);
    expect(rows.map(({ firstBar, bars: inRow }) => [firstBar, inRow])).toEqual([
      [0, 4],
      [4, 4],
      [8, 4],
    ]);
    // Each row has the scale of them all.
    expect(new Set(rows.map(({ low, high, widthBars }) => `${low} ${high} ${widthBars}`)).size).toBe(1);
  });

  it('puts every chord at its place in the form, in bars', () => {
    const [row, ...more] = rowsOf('key: C\n[A]\n| Dm7 G7 | r r C6 | N.C. |\n');
    expect(more).toEqual([]);
    expect(row?.chords.map(({ fromBars, toBars }) => [fromBars, toBars])).toEqual([
      [0, 0.5],
      [0.5, 1],
      [1.5, 2],
    ]);
  });

  it('breaks a long form into rows of one scale, as equal as can be', () => {
    const line = '| Dm7 | G7 | C6 | A7 |\n';
    const rows = rowsOf(`key: C\n[A]\n${line.repeat(5)}`);
    expect(rows.map(({ firstBar, bars, widthBars }) => [firstBar, bars, widthBars])).toEqual([
      [0, 10, 10],
      [10, 10, 10],
    ]);
    const pitches = rows.flatMap(({ chords }) =>
      chords.flatMap(({ upper, lower }) => [upper.pitch, lower.pitch]),
    );
    for (const { low, high } of rows) {
      expect([low, high]).toEqual([Math.min(...pitches), Math.max(...pitches)]);
    }
  });

  it('is empty where there are no chords', () => {
    expect(rowsOf('key: C\n[A]\n| N.C. | r |\n')).toEqual([]);
  });
});

describe('the passes to study', () => {
  it('are those that differ, named after all legs that play them', () => {
    const road = roadOf(
      'key: C\n[A]\n| C | F |\n[B]\n| G | C |\n\nroad:\n Head: A B x2\n Solos: A B open\n Out: A\n',
    );
    expect(studyPasses(road).map(({ legs, bars }) => [legs.map(({ name }) => name), bars.length])).toEqual([
      [['Head', 'Solos'], 4],
      [['Out'], 2],
    ]);
  });
});
