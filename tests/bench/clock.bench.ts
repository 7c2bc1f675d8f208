import { METHODS } from './clock-methods.ts';
import { type Score, score, scoreStart, scoreWaking } from './clock-score.ts';
import { readTraces, type Trace } from './clock-trace.ts';
import type { Print } from './main.ts';
import { quantile } from './quantile.ts';
import { NETWORKS, simulate } from './simulated-traces.ts';

/** Goals at one ping a second from 30 s on, p99, ms: spread of eight tablets, error. */
const GOALS: Readonly<Record<string, readonly [number, number]>> = {
  wifi: [0.6, 0.35],
  'wifi in bad shape': [0.6, 0.35],
  'bursts of 200 ms': [1, 0.5],
  'relay restarted': [1, 0.5],
  asym: [4.5, 4.3],
};
const SEEDS = Array.from({ length: 10 }, (_, i) => i + 1);
const STARTS = 40;
const GRAINS_MS = [0.1, 1];

/** Scores the shared clock against the plain methods and its goals. */
export const run = async (print: Print, options: { readonly traces?: string }): Promise<void> => {
  const simulated = NETWORKS.map(({ condition }) => ({
    name: `simulated ${condition}`,
    traces: SEEDS.map((seed) => simulate(networkCalled(condition), seed)),
  }));
  const recorded =
    options.traces === undefined
      ? []
      : readTraces(options.traces).map((trace) => ({ name: `recorded ${trace.condition}`, traces: [trace] }));
  if (recorded.length === 0)
    print('no recordings given (TILLCUE_TRACES or --traces=DIR): simulated networks only');
  print(
    `one ping a second, from 30 s on; ms; simulated: mean of ${SEEDS.length} seeds; × = as many times Tillcue’s`,
  );

  const conditions = [...recorded, ...simulated];
  for (const { name, traces } of conditions) await printTable(print, name, traces, 0);
  for (const grain of GRAINS_MS) {
    for (const { name, traces } of conditions.filter((one) => /wifi$|loopback$/.test(one.name))) {
      await printTable(print, name, traces, grain);
    }
  }
  const starts = Array.from({ length: STARTS }, (_, i) => simulate(networkCalled('wifi'), 1000 + i, 4000));
  await printStarts(print, `simulated wifi, ${8 * STARTS} tablets`, starts);
  const recordedWifi = recorded.find(({ name }) => name === 'recorded wifi');
  if (recordedWifi !== undefined) await printStarts(print, 'recorded wifi, 8 tablets', recordedWifi.traces);
  for (const { name, traces } of conditions.filter((one) => one.name.endsWith('sleep'))) {
    await printWaking(print, name, traces);
  }
};

const networkCalled = (condition: string) => {
  const network = NETWORKS.find((one) => one.condition === condition);
  if (network === undefined) throw new Error(`no network called ${condition}`);
  return network;
};

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

const printTable = async (print: Print, name: string, traces: readonly Trace[], grain: number) => {
  const goal = grain === 0 ? GOALS[name.replace(/^\w+ /, '')] : undefined;
  print('');
  print(`${name}${grain === 0 ? '' : `, tablet clocks rounded down to ${grain} ms`}`);
  print(
    `  ${'method'.padEnd(24)}${'spread p99'.padStart(12)}${'×'.padStart(8)}${'error p99'.padStart(12)}${'×'.padStart(8)}`,
  );
  let ours: readonly [number, number] | undefined;
  let oursBySeed: readonly Score[] = [];
  for (const method of METHODS) {
    const scores = await Promise.all(traces.map((trace) => score(trace, method, grain)));
    const spread = mean(scores.map(({ spreadP99 }) => spreadP99));
    const error = mean(scores.map(({ errorP99 }) => errorP99));
    if (ours === undefined) {
      ours = [spread, error];
      oursBySeed = scores;
    }
    const outside =
      scores[0]?.outsideOwnBound == null ? null : mean(scores.map((one) => one.outsideOwnBound ?? 0));
    print(
      `  ${method.name.padEnd(24)}${spread.toFixed(3).padStart(12)}${(spread / ours[0]).toFixed(1).padStart(8)}` +
        `${error.toFixed(3).padStart(12)}${(error / ours[1]).toFixed(1).padStart(8)}` +
        (outside === null ? '' : `   beyond its own bound: ${(100 * outside).toFixed(2)} %`),
    );
  }
  if (goal === undefined || ours === undefined) return;
  print(
    `  goal: spread ≤ ${goal[0]} ${verdict(ours[0] <= goal[0])}, error ≤ ${goal[1]} ${verdict(ours[1] <= goal[1])}`,
  );
  // A mean hides an evening that went badly: say how many there were.
  if (traces.length > 1) {
    const spreads = oursBySeed.map(({ spreadP99 }) => spreadP99);
    const errors = oursBySeed.map(({ errorP99 }) => errorP99);
    print(
      `  worst of ${traces.length} seeds: spread ${Math.max(...spreads).toFixed(3)}, ${spreads.filter((one) => one > goal[0]).length} above the goal; ` +
        `error ${Math.max(...errors).toFixed(3)}, ${errors.filter((one) => one > goal[1]).length} above the goal`,
    );
  }
};

const printStarts = async (print: Print, name: string, traces: readonly Trace[]) => {
  print('');
  print(`cold start, ${name}: ms from the first ping until within 5 ms for good; goal: p99 ≤ 400`);
  for (const method of METHODS) {
    const times = (await Promise.all(traces.map((trace) => scoreStart(trace, method)))).flat();
    print(
      `  ${method.name.padEnd(24)} p50 ${quantile(times, 0.5).toFixed(0).padStart(6)}  p99 ${quantile(times, 0.99).toFixed(0).padStart(6)}` +
        (method === METHODS[0] ? `  ${verdict(quantile(times, 0.99) <= 400)}` : ''),
    );
  }
};

const printWaking = async (print: Print, name: string, traces: readonly Trace[]) => {
  print('');
  print(
    `waking after 60 s, ${name}: goal: within 5 ms 150 ms after the first fresh pong, never beyond 5 ms afterwards`,
  );
  for (const method of METHODS) {
    const wakings = (await Promise.all(traces.map((trace) => scoreWaking(trace, method)))).flat();
    const within = Math.max(...wakings.map(({ withinMs }) => withinMs));
    const worst = Math.max(...wakings.map(({ worstMs }) => worstMs));
    print(
      `  ${method.name.padEnd(24)} within 5 ms after ${within.toFixed(0).padStart(5)}  worst afterwards ${worst.toFixed(2).padStart(9)}` +
        (method === METHODS[0] ? `  ${verdict(within <= 150 && worst <= 5)}` : ''),
    );
  }
};

const verdict = (met: boolean): string => (met ? '(met)' : '(MISSED)');
