import { describe, expect, it } from 'vitest';
import { readChart } from '../../../common/chart/read-chart.ts';
import { DEMO_BAND } from '../../../common/demo/demo-band.ts';
import { roadShape } from '../../../common/form/road-shape.ts';
import { unroll } from '../../../common/form/unroll.ts';
import { roadAt } from '../../../common/stage/in-force.ts';
import { perform } from '../../../common/stage/perform.ts';

const roadOf = (text: string) => unroll(readChart(text).chart).road;

describe('the shape of a road', () => {
  it.each(DEMO_BAND.charts)('is the same on the stage as in the chart it came from: $id', ({ id, text }) => {
    const road = roadOf(text);
    const stage = perform({ id: 't', chart: id, title: '', road, cues: [] });
    expect(roadShape(roadAt(stage, 0))).toBe(roadShape(road));
  });

  it('stays when a chord is corrected, and changes with the number of bars', () => {
    const before = roadShape(roadOf('[A]\n| C7 | F7 |\n'));
    expect(roadShape(roadOf('[A]\n| C9 | F7 |\n'))).toBe(before);
    expect(roadShape(roadOf('[A]\n| C7 | F7 | G7 |\n'))).not.toBe(before);
  });
});
