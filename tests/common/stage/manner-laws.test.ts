import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import {
  dynamicAt,
  feelAt,
  loopAt,
  semitonesAt,
  soloAt,
  stopTimeAt,
} from '../../../common/stage/in-force.ts';
import { perform } from '../../../common/stage/perform.ts';
import type { ComingBar } from '../../../common/stage/place.ts';
import { someCalls, someRoad } from './support-random.ts';
import { playedBars } from './support-read.ts';
import { take } from './support-road.ts';

/** Set to 20000 to search hard while working on the stage. */
const numRuns = Number(process.env['STAGE_RUNS'] ?? 250);
vi.setConfig({ testTimeout: Math.max(20_000, numRuns * 100) });

const someTake = fc.record({ road: someRoad, calls: someCalls }).map(({ road, calls }) => take(road, calls));
const lastMs = (of: ReturnType<typeof take>): number => of.cues.at(-1)?.calledAtMs ?? 0;
/** These say that the band is somewhere else than the board, or was: the bars are told anew. */
const RETELLS = ['here', 'start', 'itHappened', 'resume'];
const PASS_CUES = ['lastChorus', 'oneMore', 'goOn', 'up', 'down', 'trade', 'nextSoloist', 'adopt', 'tag'];

/** Two bars one of which follows the other, with nothing told anew between them. */
const pairs = (taken: ReturnType<typeof take>): [ComingBar, ComingBar][] => {
  const bars = playedBars(perform(taken), lastMs(taken) + 60_000);
  const retold = taken.cues.filter(({ cue }) => RETELLS.includes(cue.kind)).map((one) => one.calledAtMs);
  return bars.flatMap((b, i): [ComingBar, ComingBar][] => {
    const a = bars[i - 1];
    return a && !retold.some((ms) => ms >= a.startMs && ms <= b.startMs) ? [[a, b]] : [];
  });
};

describe('What must always hold of the manner and of loops, for random cues over random roads', () => {
  it('[STAGE-61] [STAGE-65] stays within a loop, and ends no pass there', () => {
    fc.assert(
      fc.property(someTake, (taken) => {
        const waits = new Set(
          taken.cues.filter(({ cue }) => PASS_CUES.includes(cue.kind)).map(({ id }) => id),
        );
        for (const [a, b] of pairs(taken)) {
          if (!a.loop || !b.loop) continue;
          const { from, to, round } = b.loop;
          expect(b.place.barIndex >= from && b.place.barIndex <= to).toBe(true);
          const isSame =
            a.loop.from === from && a.loop.to === to && [round, round - 1].includes(a.loop.round);
          const isLanded = b.lands.some((id) => taken.cues.find((one) => one.id === id)?.cue.kind === 'loop');
          if (isLanded) expect(round).toBe(1);
          else {
            expect(isSame).toBe(true);
            expect(b.lands.filter((id) => waits.has(id))).toEqual([]);
            expect([b.leg.id, b.place.pass]).toEqual([a.leg.id, a.place.pass]);
            const isRound = a.place.barIndex === to;
            expect([round, b.place.barIndex]).toEqual(
              isRound ? [a.loop.round + 1, from] : [a.loop.round, a.place.barIndex + 1],
            );
          }
        }
      }),
      { numRuns },
    );
  });

  it('[STAGE-56] restarts the turns at the top, each as long as said, and lets the players rotate on', () => {
    fc.assert(
      fc.property(someTake, (taken) => {
        const named = taken.cues.filter(({ cue }) => cue.kind === 'soloOrder').map((one) => one.calledAtMs);
        for (const [a, b] of pairs(taken)) {
          if (b.turn) expect(b.place.barIndex + b.turn.barsLeft).toBeLessThan(b.passBars);
          const isNamed = named.some((ms) => ms >= a.startMs && ms <= b.startMs);
          if (!a.turn || !b.turn || isNamed || b.lands.length > 0 || a.leg !== b.leg || b.loop) continue;
          if (a.turn.barsLeft > 0 && a.passBars === b.passBars) {
            expect(b.turn).toMatchObject({ now: a.turn.now, barsLeft: a.turn.barsLeft - 1 });
          } else if (a.turn.barsLeft === 0 && a.turn.next !== '') expect(b.turn.now).toBe(a.turn.next);
        }
      }),
      { numRuns },
    );
  });

  it('[STAGE-50] [STAGE-60] is at every bar as the bar is told', () => {
    fc.assert(
      fc.property(someTake, (taken) => {
        const performance = perform(taken);
        for (const [, bar] of pairs(taken)) {
          const { startMs, semitones = 0, stopTime = false, feel, out } = bar;
          expect(semitonesAt(performance, startMs)).toBe(semitones);
          expect(Math.abs(semitones)).toBeLessThan(12);
          expect(stopTimeAt(performance, startMs) && out === undefined).toBe(stopTime);
          expect(feelAt(performance, startMs)).toBe(
            feel === 'half-time' ? 'half' : feel === 'double-time' ? 'double' : null,
          );
          const named = taken.cues.some(
            ({ cue, calledAtMs: ms }) => cue.kind === 'soloOrder' && ms === startMs,
          );
          if (!named) expect(soloAt(performance, startMs)?.now ?? undefined).toBe(bar.soloist);
          expect(loopAt(performance, startMs)?.round).toBe(bar.loop?.round);
          expect([null, 'down', 'build', 'ff', 'dim']).toContain(dynamicAt(performance, startMs));
        }
      }),
      { numRuns },
    );
  });
});
