import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEMO_BAND } from '../../../common/demo/demo-band.ts';
import { SLOW_FERRY } from '../../../common/demo/slow-ferry.ts';
import {
  type AskedCue,
  beginCueDrill,
  soundInBreak,
  tapCueDrill,
  turnCueDrill,
} from '../../../common/rehearsal/cue-drill.ts';
import { semitonesAt } from '../../../common/stage/in-force.ts';
import { locate } from '../../../common/stage/locate.ts';
import { perform } from '../../../common/stage/perform.ts';
import { barsAround, upcoming } from '../../../common/stage/upcoming.ts';
import { seededRandom } from '../../support/seeded-random.ts';
import { twelveBars } from '../stage/support-road.ts';
import { cueRound, freshTake, roadOf } from './support-drill.ts';

const MINUTE_MS = 60_000;
const NOTICE = [8, 8, 6, 4, 4, 3, 2, 1];
const ferry = roadOf(SLOW_FERRY);
const tunes = DEMO_BAND.charts.map(({ text }) => roadOf(text));
const onTime = ({ dueMs }: AskedCue): number[] => [dueMs];
const never = (): number[] => [];

const someRound = fc.record({
  road: fc.constantFrom(...tunes, twelveBars()),
  seed: fc.integer({ min: 1, max: 1_000_000 }),
  level: fc.integer({ min: 1, max: 8 }),
});

describe('the cue drill', () => {
  it('[DRILL-10] counts in from the first open leg, and again two seconds after the end', () => {
    const waiting = perform(freshTake(ferry));
    const solos = ferry.legs.find(({ passes }) => passes === 'open');
    const { call } = turnCueDrill(beginCueDrill(1), waiting, 0, () => 0);
    expect(call).toEqual({ kind: 'start', leg: solos?.id, barIndex: 0, pass: 1 });
    const ended = perform({
      ...waiting.take,
      cues: [
        { id: '1', cue: { kind: 'start' }, calledAtMs: 0 },
        { id: '2', cue: { kind: 'stop' }, calledAtMs: 9000 },
      ],
    });
    const end = locate(ended, 20_000);
    const endMs = end.state === 'ended' ? end.atMs : 0;
    expect(turnCueDrill(beginCueDrill(1), ended, endMs + 1999, () => 0).call).toBeNull();
    expect(turnCueDrill(beginCueDrill(1), ended, endMs + 2000, () => 0).call?.kind).toBe('start');
  });

  it('[DRILL-11] [DRILL-12] calls only what the stage takes, says when it lands, and gives the notice of the level', () => {
    fc.assert(
      fc.property(someRound, ({ road, seed, level }) => {
        const round = cueRound(road, beginCueDrill(level), seededRandom(seed), 2 * MINUTE_MS, onTime);
        for (const { cue, barsToGo, landsMs, level: then, before } of round.calls) {
          if (cue.kind === 'start' || cue.kind === 'release') continue;
          expect(Number.isFinite(landsMs)).toBe(true);
          const notice = NOTICE[then - 1] ?? 0;
          expect(barsToGo).toBeLessThanOrEqual(notice);
          // One more is called halfway between last chorus and its line.
          if (cue.kind !== 'oneMore') expect(barsToGo).toBeGreaterThanOrEqual(notice / 2);
          if (cue.kind !== 'goTo') continue;
          const anyway = upcoming(before, landsMs - 1, 1)[0]?.place;
          expect(anyway?.barIndex).not.toBe(cue.barIndex);
        }
        const { performance } = round;
        expect(Math.abs(semitonesAt(performance, 2 * MINUTE_MS))).toBeLessThanOrEqual(2);
      }),
      { numRuns: 20 },
    );
  });

  it('[DRILL-12] leaves out a call for which a frame came too late', () => {
    // Lantern Boat, the call of whose break once came a frame after the last instant for its line.
    const boat = tunes.find(({ tempoBpm }) => tempoBpm === 56) ?? ferry;
    const { calls } = cueRound(boat, beginCueDrill(8), seededRandom(398_620), 2 * MINUTE_MS, onTime);
    expect(calls.length).toBeGreaterThan(2);
    for (const { cue, barsToGo, level } of calls)
      if (cue.kind !== 'start' && cue.kind !== 'release')
        expect(barsToGo).toBeLessThanOrEqual(NOTICE[level - 1] ?? 0);
  });

  it('[DRILL-12] calls what lands at the top exactly so many bars ahead, in the middle of a bar', () => {
    for (const level of [1, 4, 6, 8]) {
      const seen = new Set<string>();
      for (let seed = 1; seed < 12; seed += 1) {
        const { calls } = cueRound(twelveBars(), beginCueDrill(level), seededRandom(seed), MINUTE_MS, never);
        const first = calls.find(({ cue }) => cue.kind !== 'start');
        if (!first) continue;
        const isAtTop =
          ['lastChorus', 'up', 'trade'].includes(first.cue.kind) ||
          (first.cue.kind === 'break' && first.cue.at === 'pass');
        if (isAtTop) {
          seen.add(first.cue.kind);
          expect(first.barsToGo).toBe(NOTICE[level - 1]);
        }
        const where = locate(first.before, first.atMs);
        const pulse = where.state === 'playing' ? where.place.pulse : Number.NaN;
        expect(pulse).toBeGreaterThanOrEqual(1);
        expect(pulse).toBeLessThan(2.2);
      }
      expect(seen.size).toBeGreaterThan(1);
    }
  });

  it('[DRILL-13] leaves rests, never asks the same twice running, and comes to every kind in time', () => {
    const kinds = new Set<string>();
    for (let seed = 1; seed <= 12; seed += 1) {
      const { asked, drill } = cueRound(ferry, beginCueDrill(7), seededRandom(seed), 4 * MINUTE_MS, onTime);
      asked.forEach(({ kind }, at) => {
        kinds.add(kind);
        expect(kind).not.toBe(asked[at - 1]?.kind);
      });
      expect(drill.answers.length).toBeGreaterThan(6);
    }
    // The tag of this tune is written, so that nobody can call another.
    expect([...kinds].sort()).toEqual(
      [
        'breakAtTop',
        'break',
        'soloBreak',
        'lastChorus',
        'lastThenMore',
        'oneMore',
        'trade',
        'hold',
        'release',
        'halfStep',
        'goTo',
      ].sort(),
    );
    for (let seed = 1; seed <= 6; seed += 1) {
      const gentle = cueRound(ferry, beginCueDrill(1), seededRandom(seed), 4 * MINUTE_MS, never);
      expect(gentle.asked.length).toBeLessThan(12);
    }
  });

  it('[DRILL-11] calls a tag where none is written', () => {
    const seeds = Array.from({ length: 12 }, (_, at) => at + 1);
    const rounds = seeds.map((seed) =>
      cueRound(twelveBars(), beginCueDrill(8), seededRandom(seed), 4 * MINUTE_MS, onTime),
    );
    expect(rounds.flatMap(({ asked }) => asked).some(({ kind }) => kind === 'tag')).toBe(true);
  });

  it('[DRILL-14] a player who is always there has everything right, one who is late by a bar nothing', () => {
    fc.assert(
      fc.property(someRound, ({ road, seed, level }) => {
        const good = cueRound(road, beginCueDrill(level), seededRandom(seed), 2 * MINUTE_MS, onTime);
        for (const answer of good.drill.answers) expect(answer).toMatchObject({ right: true, errorBeats: 0 });
        const late = cueRound(road, beginCueDrill(level), seededRandom(seed), 2 * MINUTE_MS, (asked) => [
          asked.dueMs + 4 * asked.beatMs,
        ]);
        for (const answer of late.drill.answers)
          expect(answer).toMatchObject({ right: false, errorBeats: null });
      }),
      { numRuns: 12 },
    );
  });

  it('[DRILL-2] tells half a beat from more, and hears the first tap only', () => {
    const offs: readonly [number, boolean, number | null][] = [
      [-0.5, true, -0.5],
      [0.5, true, 0.5],
      [0.55, false, 0.55],
      [-0.55, false, -0.55],
      [-1.9, false, -1.9],
      [2.1, false, null],
    ];
    for (const [offBeats, right, errorBeats] of offs) {
      const { drill } = cueRound(twelveBars(), beginCueDrill(5), seededRandom(4), MINUTE_MS, (asked) =>
        asked.silence ? [] : [asked.dueMs + offBeats * asked.beatMs, asked.dueMs + 1.95 * asked.beatMs],
      );
      const answer = drill.answers.find(({ name }) => !/break/i.test(name));
      expect(answer?.right).toBe(right);
      if (errorBeats === null) expect(answer?.errorBeats ?? 1.95).toBeCloseTo(1.95, 6);
      else expect(answer?.errorBeats).toBeCloseTo(errorBeats, 6);
    }
  });

  it('[DRILL-14] [DRILL-15] a break is answered where the band is in again, and broken by a tap before', () => {
    const seeds = Array.from({ length: 30 }, (_, at) => at + 1);
    const breaks = seeds.flatMap((seed) => {
      const { asked, performance } = cueRound(ferry, beginCueDrill(5), seededRandom(seed), MINUTE_MS, onTime);
      return asked.flatMap((one) => (one.silence ? [{ ...one, silence: one.silence, performance }] : []));
    });
    expect(breaks.length).toBeGreaterThan(5);
    for (const { dueMs, beatMs, silence, performance } of breaks) {
      const { bars, now } = barsAround(performance, dueMs, 1, 0);
      expect(bars[now]?.startMs).toBe(dueMs);
      expect(bars[now]?.out).toBeUndefined();
      expect(bars[now - 1]?.out).toBeDefined();
      expect(dueMs - silence.untilMs).toBeCloseTo(beatMs / 2, 6);
    }
    const asked: AskedCue = {
      kind: 'break',
      dueMs: 8000,
      beatMs: 500,
      silence: { fromMs: 5000, untilMs: 7750 },
      tapMs: null,
      broken: false,
    };
    const drill = { ...beginCueDrill(1), asked };
    expect(tapCueDrill(drill, 4900)).toBe(drill);
    expect(tapCueDrill(drill, 5000).asked?.broken).toBe(true);
    expect(tapCueDrill(drill, 8100).asked).toMatchObject({ broken: false, tapMs: 8100 });
  });

  it('[DRILL-15] with a microphone a break needs no tap; what was heard in it makes it a miss', () => {
    const asked: AskedCue = {
      kind: 'break',
      dueMs: 8000,
      beatMs: 500,
      silence: { fromMs: 5000, untilMs: 7750 },
      tapMs: null,
      broken: false,
    };
    const performance = perform({
      ...freshTake(ferry),
      cues: [{ id: '1', cue: { kind: 'start' }, calledAtMs: 0 }],
    });
    const answersTo = (listens: boolean, soundMs: number | null) => {
      const drill = { ...beginCueDrill(1, listens), asked };
      const heard = soundMs === null ? drill : soundInBreak(drill, soundMs);
      return turnCueDrill(heard, performance, 9100, () => 0).drill.answers;
    };
    expect(answersTo(true, null)).toEqual([{ name: 'break', right: true, errorBeats: null }]);
    expect(answersTo(true, 6000)).toEqual([{ name: 'break', right: false, errorBeats: null }]);
    expect(answersTo(true, 4000)).toEqual([{ name: 'break', right: true, errorBeats: null }]);
    expect(answersTo(false, null)).toEqual([{ name: 'break', right: false, errorBeats: null }]);
  });

  it('[DRILL-16] one more follows last chorus before its line, and lands with it', () => {
    let seen = 0;
    for (let seed = 1; seed < 40 && seen < 3; seed += 1) {
      const { calls, asked } = cueRound(
        twelveBars(),
        beginCueDrill(4),
        seededRandom(seed),
        MINUTE_MS,
        onTime,
      );
      if (asked[0]?.kind !== 'lastThenMore') continue;
      seen += 1;
      const [last, more] = calls.filter(({ cue }) => cue.kind !== 'start');
      expect([last?.cue.kind, more?.cue.kind]).toEqual(['lastChorus', 'oneMore']);
      expect(more?.landsMs).toBe(last?.landsMs);
      expect(asked[0].dueMs).toBe(last?.landsMs);
    }
    expect(seen).toBeGreaterThan(0);
  });

  it('[DRILL-17] releases what it holds', () => {
    let holds = 0;
    for (let seed = 1; seed <= 20; seed += 1) {
      const { asked, calls } = cueRound(ferry, beginCueDrill(7), seededRandom(seed), 2 * MINUTE_MS, onTime);
      asked.forEach((one, at) => {
        const next = asked[at + 1];
        if (one.kind !== 'hold' || !next) return;
        holds += 1;
        expect(next.kind).toBe('release');
        const call = calls.find(({ cue, atMs }) => cue.kind === 'release' && atMs > one.dueMs);
        const beats = ((call?.atMs ?? 0) - one.dueMs) / one.beatMs;
        expect(beats).toBeGreaterThanOrEqual(2);
        // A frame late at most.
        expect(beats).toBeLessThanOrEqual(6.3);
      });
    }
    expect(holds).toBeGreaterThan(2);
  });

  it('the same dice give the same round', () => {
    const round = () => cueRound(ferry, beginCueDrill(3), seededRandom(9), MINUTE_MS, onTime).calls;
    expect(round().map(({ cue, atMs }) => [cue, atMs])).toEqual(round().map(({ cue, atMs }) => [cue, atMs]));
  });
});
