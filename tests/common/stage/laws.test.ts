import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { announced } from '../../../common/stage/announce.ts';
import type { Called, Cue, Take } from '../../../common/stage/cue.ts';
import { judge, judgeTakeBack } from '../../../common/stage/judge.ts';
import { locate } from '../../../common/stage/locate.ts';
import { missedAt } from '../../../common/stage/missed.ts';
import { type Performance, perform } from '../../../common/stage/perform.ts';
import type { ComingBar } from '../../../common/stage/place.ts';
import { barsAround, upcoming } from '../../../common/stage/upcoming.ts';
import { someCalls, someLandingCue, someRoad } from './support-random.ts';
import { isNextRound, playedBars } from './support-read.ts';
import { take } from './support-road.ts';

/** Set to 20000 to search hard while working on the stage. */
const numRuns = Number(process.env['STAGE_RUNS'] ?? 250);
vi.setConfig({ testTimeout: Math.max(20_000, numRuns * 100) });

const someTake = fc.record({ road: someRoad, calls: someCalls }).map(({ road, calls }) => take(road, calls));
const someTimes = fc.array(fc.integer({ min: 0, max: 120_000 }), { minLength: 1, maxLength: 12 });
const clone = (value: Take): Take => JSON.parse(JSON.stringify(value)) as Take;
const lastMs = (of: Take): number => of.cues.at(-1)?.calledAtMs ?? 0;
const upTo = (of: Take, n: number): Take => ({ ...of, cues: of.cues.slice(0, n) });

const STOP_AT_END: Called = { id: 'stop', cue: { kind: 'stop' }, calledAtMs: 200_000 };

/** The bars are those that would have been played if a cue had landed, or a stop had not been called. */
const isRetold = (taken: Take, a: ComingBar, b: ComingBar): boolean =>
  taken.cues.some(
    ({ cue, calledAtMs: ms }) =>
      (cue.kind === 'itHappened' || cue.kind === 'resume') && ms >= a.startMs && ms <= b.startMs,
  );

describe('What must always hold, for random cues over random roads', () => {
  it('[STAGE-1] gives the same place for the same take and instant, whatever was asked before', () => {
    fc.assert(
      fc.property(someTake, someTimes, (taken, times) => {
        const one = perform(taken);
        const other = perform(clone(taken));
        announced(other, 5000);
        upcoming(other, 90_000, 4);
        judge(other, { kind: 'lastChorus' }, lastMs(taken) + 777);
        const places = times.map((t) => locate(one, t));
        const backwards = [...times]
          .reverse()
          .map((t) => locate(other, t))
          .reverse();
        expect(backwards).toEqual(places);
      }),
      { numRuns },
    );
  });

  it('[STAGE-2] never goes back but by go to, here, start, rounds of a loop and what is told otherwise', () => {
    fc.assert(
      fc.property(someTake, (taken) => {
        const performance = perform(taken);
        const jumps = new Set(
          taken.cues
            .filter(({ cue }) => ['goTo', 'here', 'start', 'adopt', 'loop'].includes(cue.kind))
            .map(({ id }) => id),
        );
        const starts = taken.cues.filter(({ cue }) => cue.kind === 'start').map((c) => c.calledAtMs);
        const order = taken.road.legs.map(({ id }) => id);
        const orderOf = (id: string) => (id.startsWith('tag:') ? order.length : order.indexOf(id));
        const adopts = taken.cues.some(({ cue }) => cue.kind === 'adopt');
        const bars = playedBars(performance, lastMs(taken) + 60_000);
        for (let i = 1; i < bars.length; i += 1) {
          const [a, b] = [bars[i - 1] as ComingBar, bars[i] as ComingBar];
          if (b.lands.some((id) => jumps.has(id)) || isNextRound(a, b)) continue;
          if (starts.some((ms) => ms >= a.startMs && ms < b.startMs)) continue;
          if (isRetold(taken, a, b)) continue;
          if (a.leg.id !== b.leg.id) {
            if (!adopts) expect(orderOf(b.leg.id)).toBeGreaterThan(orderOf(a.leg.id));
            continue;
          }
          const later =
            b.place.pass > a.place.pass ||
            (b.place.pass === a.place.pass && b.place.barIndex > a.place.barIndex);
          expect(later).toBe(true);
        }
      }),
      { numRuns },
    );
  });

  it('[STAGE-2] never goes back in time: the pulse of a bar only grows', () => {
    fc.assert(
      fc.property(someTake, someTimes, (taken, times) => {
        const performance = perform(taken);
        let before = { bar: -1, pulse: -1 };
        for (const t of [...times, ...times.map((t) => t + 1)].sort((a, b) => a - b)) {
          const where = locate(performance, t);
          if (where.state !== 'playing') continue;
          const { bar, place } = where;
          expect(bar > before.bar || (bar === before.bar && place.pulse >= before.pulse)).toBe(true);
          const coming = barsAround(performance, t, 0, 0).bars[0] as ComingBar;
          expect(coming.place).toEqual({ ...place, pulse: 0 });
          expect(place.pulse).toBeGreaterThanOrEqual(0);
          expect(place.pulse).toBeLessThan(coming.bar.pulses);
          expect(coming.startMs).toBeLessThanOrEqual(t);
          before = { bar, pulse: place.pulse };
        }
      }),
      { numRuns },
    );
  });

  it('[STAGE-3] is the same before a cue lands as it would be without it', () => {
    fc.assert(
      fc.property(someTake, someLandingCue, fc.nat(3000), someTimes, (taken, cue, after, times) => {
        const without = perform(taken);
        const calledAtMs = lastMs(taken) + after;
        const verdict = judge(without, cue, calledAtMs);
        const called: Called = { id: 'new', cue, calledAtMs };
        const withIt = perform({ ...taken, cues: [...taken.cues, called] });
        const lands = verdict.ok ? verdict.landsMs : Number.POSITIVE_INFINITY;
        for (const t of [...times, calledAtMs, lands - 1e-3, lands - 1].filter((t) => t < lands)) {
          if (Number.isFinite(t)) expect(locate(withIt, t)).toEqual(locate(without, t));
        }
      }),
      { numRuns },
    );
  });

  it('[STAGE-3] is as if a cue had never been called when it is taken back before it lands', () => {
    fc.assert(
      fc.property(
        someTake,
        fc.nat(),
        fc.nat(),
        fc.nat(2000),
        someTimes,
        (taken, which, gap, after, times) => {
          const index = which % taken.cues.length;
          const cue = taken.cues[index] as Called;
          const until = Math.min(taken.cues.length, index + 1 + (gap % 4));
          const calledAtMs = (taken.cues[until - 1] as Called).calledAtMs + Math.min(after, 400);
          const next = taken.cues[until]?.calledAtMs ?? Number.POSITIVE_INFINITY;
          fc.pre(calledAtMs <= next && cue.cue.kind !== 'takeBack');
          fc.pre(judgeTakeBack(perform(upTo(taken, until)), cue.id, calledAtMs).ok);
          const back: Called = { id: 'back', cue: { kind: 'takeBack', cue: cue.id }, calledAtMs };
          const cues = [...taken.cues.slice(0, until), back, ...taken.cues.slice(until)];
          const taken1 = perform({ ...taken, cues });
          const never = perform({ ...taken, cues: taken.cues.filter(({ id }) => id !== cue.id) });
          for (const t of times) expect(locate(taken1, t)).toEqual(locate(never, t));
        },
      ),
      { numRuns },
    );
  });

  it('[STAGE-4] plays every bar of a pass once and in order, each for its pulses at a constant tempo', () => {
    fc.assert(
      fc.property(someTake, (taken) => {
        const performance = perform(taken);
        const jumps = taken.cues.filter(({ cue }) => ['goTo', 'here', 'start', 'loop'].includes(cue.kind));
        const ids = new Set(jumps.map(({ id }) => id));
        const starts = jumps.filter(({ cue }) => cue.kind === 'start').map((c) => c.calledAtMs);
        const bars = playedBars(performance, lastMs(taken) + 60_000);
        for (let i = 1; i < bars.length; i += 1) {
          const [a, b] = [bars[i - 1] as ComingBar, bars[i] as ComingBar];
          if (b.lands.some((id) => ids.has(id)) || isNextRound(a, b)) continue;
          if (starts.some((ms) => ms >= a.startMs && ms < b.startMs)) continue;
          if (isRetold(taken, a, b)) continue;
          const samePass = a.leg.id === b.leg.id && a.place.pass === b.place.pass;
          if (samePass) expect(b.place.barIndex).toBe(a.place.barIndex + 1);
          else {
            expect(b.place.barIndex).toBe(0);
            // Where the last pass parts from the others, how long a pass is may be known only on its way.
            expect([a.leg.bars.length, a.leg.lastBars?.length]).toContain(a.place.barIndex + 1);
          }
          const from = locate(performance, a.startMs);
          const to = locate(performance, b.startMs - 1e-4);
          if (from.state !== 'playing' || to.state !== 'playing' || from.bpm !== to.bpm) continue;
          if (a.bar.marks.length > 0 || from.place.pulse > 0) continue;
          if (taken.cues.some(({ cue }) => cue.kind === 'tempo' || cue.kind === 'tap')) continue;
          // Bars between the press of a here and its arrival have gone by already.
          if (jumps.some(({ cue, calledAtMs }) => cue.kind === 'here' && calledAtMs === a.startMs)) continue;
          expect(b.startMs - a.startMs).toBeCloseTo((a.bar.pulses * 60_000) / from.bpm, 6);
        }
      }),
      { numRuns },
    );
  });

  it('[STAGE-5] agrees whether the cues are folded one by one or all at once', () => {
    fc.assert(
      fc.property(someTake, (taken) => {
        const all = perform(taken);
        taken.cues.forEach(({ calledAtMs }, i) => {
          const some = perform(upTo(taken, i + 1));
          const next = taken.cues[i + 1]?.calledAtMs ?? calledAtMs + 20_000;
          for (const t of [calledAtMs, (calledAtMs + next) / 2, next - 1]) {
            if (t >= calledAtMs && t < next) expect(locate(some, t)).toEqual(locate(all, t));
          }
        });
      }),
      { numRuns },
    );
  });

  it('[STAGE-70] [STAGE-5] agrees to the last bit when it goes on from an earlier performance', () => {
    const answers = (performance: Performance, times: readonly number[]) => ({
      places: times.map((t) => locate(performance, t)),
      announced: announced(performance, lastMs(performance.take) + 1),
      verdict: judge(performance, { kind: 'lastChorus' }, lastMs(performance.take) + 300),
      bars: playedBars(performance, lastMs(performance.take) + 30_000),
    });
    const someSteps = fc.array(fc.integer({ min: 1, max: 4 }), { minLength: 14, maxLength: 14 });
    fc.assert(
      fc.property(someTake, someSteps, someTimes, (taken, steps, times) => {
        let before: Performance | null = null;
        let told: ReturnType<typeof answers> | null = null;
        for (let n = 0, i = 0; n < taken.cues.length; i += 1) {
          n = Math.min(taken.cues.length, n + (steps[i % steps.length] as number));
          const performance = perform(upTo(taken, n), before);
          const branch = perform({ ...taken, cues: [...upTo(taken, n).cues, STOP_AT_END] }, performance);
          const now = answers(performance, times);
          expect(now).toEqual(answers(perform(upTo(taken, n)), times));
          expect(locate(branch, 1e7).state).toMatch(/ended|waiting/);
          if (before) expect(answers(before, times)).toEqual(told);
          before = performance;
          told = now;
        }
      }),
      { numRuns: numRuns / 2 },
    );
  });

  it('[STAGE-45] is after a resume as it would be without the stop', () => {
    const someStop = fc.constantFrom<Cue>({ kind: 'stop' }, { kind: 'stop', at: 'pass' });
    const someGap = fc.integer({ min: 0, max: 9000 });
    fc.assert(
      fc.property(someTake, someStop, someGap, someGap, someTimes, (taken, stop, after, until, times) => {
        const calledAtMs = lastMs(taken) + after;
        const without = perform(taken);
        const verdict = judge(without, stop, calledAtMs);
        // Of two stops at one line neither is heard.
        fc.pre(taken.cues.every((called) => called.cue.kind !== 'stop'));
        fc.pre(verdict.ok && Number.isFinite(verdict.landsMs));
        const stopped = { ...taken, cues: [...taken.cues, { id: 'stop', cue: stop, calledAtMs }] };
        const atMs = (verdict.ok ? verdict.landsMs : 0) + until;
        const resumed: Called = { id: 'resume', cue: { kind: 'resume' }, calledAtMs: atMs };
        fc.pre(judge(perform(stopped), resumed.cue as Cue, atMs).ok);
        const performance = perform({ ...stopped, cues: [...stopped.cues, resumed] });
        for (const t of times) expect(locate(performance, atMs + t)).toEqual(locate(without, atMs + t));
        expect(locate(performance, atMs)).toEqual(locate(without, atMs));
      }),
      { numRuns },
    );
  });

  it('[STAGE-46] is after "it happened" as if the cue had been called in time', () => {
    const landedMs = (performance: Performance, id: string): number => {
      announced(performance, lastMs(performance.take));
      const { landings } = performance.run.log;
      return landings.find((landing) => landing.id === id && !landing.refused)?.ms ?? Number.NaN;
    };
    /** When one of the next bars begins. */
    const lineAfter = (performance: Performance, tMs: number, n: number): number =>
      upcoming(performance, tMs, 12).filter(({ startMs }) => startMs > tMs)[n]?.startMs ?? Number.NaN;
    const someMiss = fc.record({
      cue: someLandingCue,
      line: fc.nat(6),
      calledAfter: fc.integer({ min: -390, max: 300 }),
      pressedAfter: fc.integer({ min: 300, max: 1600 }),
    });
    fc.assert(
      fc.property(someTake, someMiss, someTimes, (taken, { cue, line, calledAfter, pressedAfter }, times) => {
        const lineMs = lineAfter(perform(taken), lastMs(taken) + 1000, line);
        fc.pre(Number.isFinite(lineMs));
        const withCue = (ms: number) =>
          perform({ ...taken, cues: [...taken.cues, { id: 'late', cue, calledAtMs: ms }] });
        const late = withCue(lineMs + calledAfter);
        const pressMs = lineMs + pressedAfter;
        fc.pre(missedAt(late, pressMs)?.cue === 'late');
        const press: Called = { id: 'press', cue: { kind: 'itHappened', cue: 'late' }, calledAtMs: pressMs };
        const pressed = perform({ ...late.take, cues: [...late.take.cues, press] });
        const now = locate(pressed, pressMs);
        // What it missed: the chord that is held now, else the line with which this bar began.
        const bar = barsAround(late, pressMs, 0, 0).bars[0];
        const missedMs = cue.kind === 'hold' && now.state === 'held' ? now.sinceMs : (bar?.startMs ?? 0);
        const inTime = [3000, 1500, 1000, 700, 500]
          .map((ago) => missedMs - ago)
          .filter((ms) => ms >= lastMs(taken))
          .map(withCue)
          .find((early) => Math.abs(landedMs(early, 'late') - missedMs) < 1e-6);
        fc.pre(inTime !== undefined);
        for (const t of [0, ...times]) {
          const was = locate(inTime as Performance, pressMs + t);
          const is = locate(pressed, pressMs + t);
          // The bars shown before the press count too; an end that has gone by is seen at the press.
          if (is.state === 'ended') expect(was.state).toBe('ended');
          else expect({ ...is, bar: 0 }).toEqual({ ...was, bar: 0 });
        }
      }),
      { numRuns: Math.ceil(numRuns / 5), maxSkipsPerRun: 400 },
    );
  });

  it('[STAGE-6] answers for whatever comes, in whatever order', () => {
    const odd = fc.oneof(
      fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY, -1, 0, 0.5, 1e6),
      fc.integer({ min: -10, max: 2000 }),
    );
    const oddCue = fc.oneof(
      fc.record({ kind: fc.constant('tempo'), bpm: odd, overBars: odd }),
      fc.record({ kind: fc.constant('break'), bars: odd, at: fc.constantFrom('phrase', 'noon', undefined) }),
      fc.record({ kind: fc.constant('tag'), bars: odd, times: odd }),
      fc.record({ kind: fc.constant('tap'), tappedAtMs: odd, downbeat: fc.boolean() }),
      fc.record({
        kind: fc.constantFrom('goTo', 'start', 'here'),
        leg: fc.constant('A'),
        barIndex: odd,
        pass: odd,
      }),
      fc.record({
        kind: fc.constantFrom('here'),
        leg: fc.constant('A'),
        barIndex: fc.constant(0),
        pressedAtMs: odd,
      }),
      fc.record({ kind: fc.constantFrom('constructor', 'hold', '', 'callTune', 'release', 'resume') }),
      fc.record({ kind: fc.constant('hold'), leg: fc.constantFrom('A', 'B', ''), barIndex: odd }),
      fc.record({
        kind: fc.constant('itHappened'),
        cue: fc.constantFrom('c1', 'c2', 'x0', 'none', undefined),
      }),
      fc.record({ kind: fc.constant('here'), leg: fc.constant('A'), barIndex: fc.constant(0), pulse: odd }),
      fc.record({
        kind: fc.constantFrom('trade', 'soloOrder'),
        bars: odd,
        players: fc.constantFrom(undefined, [], [''], ['a', 7], ['a', 'b'], 'ab'),
      }),
      fc.record({ kind: fc.constantFrom('up', 'down'), semitones: odd }),
      fc.record({
        kind: fc.constantFrom('feel', 'dynamic'),
        feel: fc.constantFrom('half', 'wobbly', undefined, 'constructor'),
        dynamic: fc.constantFrom('build', 'loud', undefined, 'toString'),
      }),
      fc.record({
        kind: fc.constant('loop'),
        leg: fc.constantFrom('A', 'nowhere', undefined),
        from: odd,
        to: odd,
        countIn: fc.constantFrom(true, undefined, 7),
        stepBpm: odd,
        everyRounds: odd,
        goalBpm: odd,
      }),
      fc.record({ kind: fc.constant('takeBack'), cue: fc.constantFrom('c1', 'c2', 'none') }),
    );
    const oddTake = fc
      .record({
        taken: someTake,
        more: fc.array(fc.tuple(oddCue, odd), { maxLength: 6 }),
        at: fc.nat(20),
        mix: fc.boolean(),
      })
      .map(({ taken, more, at, mix }) => {
        const extra = more.map(
          ([cue, calledAtMs], i) => ({ id: i === 1 ? 'c1' : `x${i}`, cue, calledAtMs }) as Called,
        );
        const cues = [...taken.cues.slice(0, at), ...extra, ...taken.cues.slice(at)];
        return { ...taken, cues: mix ? cues.reverse() : cues };
      });
    fc.assert(
      fc.property(oddTake, someTimes, (taken, times) => {
        const performance = perform(taken);
        for (const t of times) {
          expect(locate(performance, t).state).toMatch(/waiting|count|playing|held|ended/);
          // Infinity behind a hold.
          for (const { startMs } of upcoming(performance, t, 5)) expect(startMs).toBeGreaterThan(-Infinity);
          for (const one of announced(performance, t)) expect(one.barsToGo).toBeGreaterThanOrEqual(0);
        }
      }),
      { numRuns },
    );
  });
});
