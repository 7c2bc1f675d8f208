import type {} from '../../client/app/band-page.tsx';
import type { Take } from '../../common/stage/cue.ts';
import { locate } from '../../common/stage/locate.ts';
import { type Performance, perform } from '../../common/stage/perform.ts';
import { upcoming } from '../../common/stage/upcoming.ts';
import type { Tablet } from './tablets.ts';

/** How near to a bar line a sample says nothing: a frame and the clock's error lie between, ms. */
const NEAR_BAR_LINE_MS = 100;
const BETWEEN_SAMPLES_MS = 40;
/** Samples without a frame to every sample wanted, at most. */
const MOST_STARVED = 8;

/** What a page shows at one instant and what it knows of the take, all read in one task of the page. */
export const look = ({ page }: Tablet) =>
  page.evaluate(() => {
    const board = window.tillcue?.board;
    const lit = document.querySelector<HTMLElement>('[data-now]');
    const { leg, pass, bar } = lit?.dataset ?? {};
    return {
      sharedMs: Number(board?.sharedNow() ?? 0),
      take: board?.stage.get().take ?? null,
      shown: lit === null ? null : `${leg} ${pass} ${bar}`,
      /** Since the latest frame began: tells a page that is late from one that is wrong. */
      frameAgeMs: Math.round(performance.now() - Number(document.timeline.currentTime)),
    };
  });

const performances = new Map<string, Performance>();

export const performanceOf = (take: Take): Performance => {
  const name = `${take.id} ${take.cues.map(({ id }) => id).join(' ')}`;
  const known = performances.get(name) ?? perform(take);
  performances.set(name, known);
  return known;
};

/** The bar that `locate` gives at that time, and how far the nearest bar line is, ms. */
const computed = (take: Take, sharedMs: number) => {
  const performance = performanceOf(take);
  const where = locate(performance, sharedMs);
  if (where.state !== 'playing') return { bar: null, toBarLineMs: 0 };
  const { leg, pass, barIndex, pulse } = where.place;
  const next = upcoming(performance, sharedMs, 1)[0]?.startMs ?? Number.POSITIVE_INFINITY;
  const sinceMs = (pulse * 60_000) / where.bpm;
  return { bar: `${leg} ${pass} ${barIndex}`, toBarLineMs: Math.min(sinceMs, next - sharedMs) };
};

export interface Samples {
  readonly taken: number;
  /** Samples whose page showed another bar than the one computed, in words. */
  readonly astray: readonly string[];
  readonly bars: ReadonlySet<string>;
}

/**
 * Samples all tablets until `wanted` samples away from bar lines are there.
 * @param enough asked between samples: goes on beyond `wanted` until it is true
 */
export const sampleBars = async (
  from: readonly Tablet[],
  wanted: number,
  enough: () => boolean = () => true,
): Promise<Samples> => {
  let taken = 0;
  let starved = 0;
  const astray: string[] = [];
  const bars = new Set<string>();
  while (taken < wanted || !enough()) {
    for (const { sharedMs, take, shown, frameAgeMs } of await Promise.all(from.map(look))) {
      if (take === null) throw new Error('no take on this stand');
      const { bar, toBarLineMs } = computed(take, sharedMs);
      if (bar === null || toBarLineMs < NEAR_BAR_LINE_MS) continue;
      // A browser that got no processor for so long had no frame to show anything in.
      if (frameAgeMs > NEAR_BAR_LINE_MS) {
        starved += 1;
        if (starved > MOST_STARVED * wanted) throw new Error('this machine is too busy to draw frames');
        continue;
      }
      taken += 1;
      bars.add(bar);
      if (bar !== shown) astray.push(`${shown} instead of ${bar} (${frameAgeMs} ms after a frame)`);
    }
    await new Promise((done) => setTimeout(done, BETWEEN_SAMPLES_MS));
  }
  return { taken, astray, bars };
};
