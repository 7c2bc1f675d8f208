import type { Chart } from '../chart/chart.ts';
import { countOf, keyTextOf, tempoOf } from '../chart/head.ts';
import type { Problem } from '../chart/problem.ts';
import { readBars } from '../chart/read-bars.ts';
import type { Road } from './road.ts';
import { unrollRoad } from './unroll-road.ts';

/**
 * The road of a chart: its road map unrolled to the bars that are really played, with what is wrong in the road
 * map. What is wrong in the bars themselves, `checkChart` says. Never throws; a chart without bars has no legs.
 */
export const unroll = (chart: Chart): { readonly road: Road; readonly problems: Problem[] } => {
  const { legs, problems } = unrollRoad(chart, readBars(chart).music);
  return {
    road: { legs, tempoBpm: tempoOf(chart), countBars: countOf(chart), key: keyTextOf(chart) },
    problems,
  };
};
