import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEMO_BAND } from '../../../common/demo/demo-band.ts';
import { SLOW_FERRY } from '../../../common/demo/slow-ferry.ts';
import { beginLostDrill, isDark, TOP, turnLostDrill } from '../../../common/rehearsal/lost-drill.ts';
import { perform } from '../../../common/stage/perform.ts';
import { seededRandom } from '../../support/seeded-random.ts';
import { twelveBars } from '../stage/support-road.ts';
import { freshTake, lostRound, roadOf, spotsIn } from './support-drill.ts';

const MINUTE_MS = 60_000;
const DARK_BARS = [2, 3, 4, 6, 8, 12, 16, 24];
const ferry = roadOf(SLOW_FERRY);
const tunes = DEMO_BAND.charts.map(({ text }) => roadOf(text));
const noSpots = () => [];

describe('the lost-spot drill', () => {
  it('[DRILL-10] counts in from the first open leg', () => {
    const { call } = turnLostDrill(beginLostDrill(1), perform(freshTake(ferry)), noSpots, 0, () => 0);
    expect(call).toMatchObject({
      kind: 'start',
      leg: ferry.legs.find(({ passes }) => passes === 'open')?.id,
    });
  });

  it('[DRILL-20] [DRILL-21] is dark from before the spot to the phrase after it, for as long as the level has', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...tunes),
        fc.integer({ min: 1, max: 1_000_000 }),
        fc.integer({ min: 1, max: 8 }),
        (road, seed, level) => {
          const round = lostRound(
            road,
            beginLostDrill(level),
            seededRandom(seed),
            2 * MINUTE_MS,
            (d) => d.dueMs,
          );
          for (const { spot, from, due, bars, level: then } of round.darks) {
            expect(due.index - from.index).toBe(bars);
            const isTop = due.place.barIndex === 0;
            const before = due.leg.bars[due.place.barIndex - 1];
            expect(isTop || before?.phraseEnd).toBe(true);
            if (spot === null) continue;
            // Dark already in the bar before the one that throws people.
            const thrown = Math.min(spot.atBar, from.passBars - 1);
            const darkBars = new Set(Array.from({ length: bars }, (_, at) => from.index + at));
            const thrownIndex = [...darkBars].filter(
              (index) => (from.place.barIndex + index - from.index) % from.passBars === thrown,
            );
            if (from.leg.id === due.leg.id && from.leg.lastBars === undefined) {
              expect(thrownIndex.length).toBeGreaterThan(0);
              expect(thrownIndex.at(-1)).toBeGreaterThan(from.index);
            }
            expect(bars).toBeGreaterThanOrEqual(2);
            expect(bars).toBeLessThanOrEqual(Math.max(DARK_BARS[then - 1] ?? 0, from.passBars + 1));
          }
        },
      ),
      { numRuns: 20 },
    );
  });

  it('[DRILL-20] goes out before the top where a tune has no spots, longer at every level', () => {
    const lengths = [1, 3, 4, 5].map((level) => {
      const { darks } = lostRound(
        twelveBars(),
        beginLostDrill(level),
        () => 0.5,
        MINUTE_MS,
        () => null,
        noSpots,
      );
      const [first] = darks;
      expect(first).toMatchObject({ spot: null, due: { place: { barIndex: 0 } } });
      return first?.bars;
    });
    expect(lengths).toEqual([2, 4, 6, 8]);
  });

  it('[DRILL-22] comes to all the spots of a leg, the likelier ones more often', () => {
    const solos = ferry.legs.find(({ passes }) => passes === 'open')?.id ?? '';
    const spots = spotsIn(ferry)(solos);
    const times = new Map<string, number>();
    for (let seed = 1; seed <= 60; seed += 1) {
      const round = lostRound(ferry, beginLostDrill(1), seededRandom(seed), MINUTE_MS, (dark) => dark.dueMs);
      const id = round.darks[0]?.spot?.id ?? TOP;
      times.set(id, (times.get(id) ?? 0) + 1);
    }
    expect([...times.keys()].sort()).toEqual([...new Set(spots.map(({ id }) => id))].sort());
    const [likeliest] = spots;
    const least = spots.at(-1);
    expect(times.get(likeliest?.id ?? '')).toBeGreaterThan(times.get(least?.id ?? '') ?? 0);
  });

  it('[DRILL-23] a tap within a beat is right; it is light again with it, else a bar after', () => {
    const tapped = (offBeats: number | null) =>
      lostRound(ferry, beginLostDrill(1), seededRandom(5), MINUTE_MS, (dark) =>
        offBeats === null ? null : dark.dueMs + offBeats * dark.beatMs,
      ).drill.answers[0];
    expect(tapped(1)).toMatchObject({ right: true });
    expect(tapped(-1)).toMatchObject({ right: true });
    expect(tapped(1.1)?.right).toBe(false);
    expect(tapped(1.1)?.errorBeats).toBeCloseTo(1.1, 6);
    expect(tapped(-4)?.errorBeats).toBeCloseTo(-4, 6);
    expect(tapped(null)).toMatchObject({ right: false, errorBeats: null });
    const { darks } = lostRound(ferry, beginLostDrill(1), seededRandom(5), MINUTE_MS, () => null);
    const dark = darks[0];
    if (!dark) throw new Error('it never went dark');
    expect(dark.untilMs - dark.dueMs).toBeCloseTo(4 * dark.beatMs, 6);
    const drill = { ...beginLostDrill(1), dark };
    expect(isDark(drill, dark.fromMs - 1)).toBe(false);
    expect(isDark(drill, dark.fromMs)).toBe(true);
  });

  it('[DRILL-23] is deaf in the light', () => {
    const { drill } = lostRound(
      ferry,
      beginLostDrill(1),
      seededRandom(5),
      MINUTE_MS,
      (dark) => dark.fromMs - 50,
    );
    expect(drill.answers.every(({ errorBeats }) => errorBeats === null)).toBe(true);
  });

  it('[DRILL-24] lets the light in between', () => {
    for (const [level, restBars] of [
      [1, 4],
      [6, 2],
    ] as const) {
      const { darks } = lostRound(ferry, beginLostDrill(level), seededRandom(3), 3 * MINUTE_MS, () => null);
      expect(darks.length).toBeGreaterThan(1);
      darks.slice(1).forEach((dark, at) => {
        const before = darks[at];
        if (before && dark.level === level)
          expect(dark.from.index - before.due.index).toBeGreaterThan(restBars);
      });
    }
  });

  it('[DRILL-1] grows darker with success and lighter with misses', () => {
    const good = lostRound(ferry, beginLostDrill(1), seededRandom(2), 6 * MINUTE_MS, (dark) => dark.dueMs);
    expect(good.drill.progress.level).toBeGreaterThan(2);
    const lost = lostRound(ferry, beginLostDrill(4), seededRandom(2), 6 * MINUTE_MS, () => null);
    expect(lost.drill.progress.level).toBeLessThan(4);
  });
});
