import type { Leg, Road, RoadBar } from './road.ts';

/** How often open legs and vamps are taken to be played where nobody knows. */
export interface Assumptions {
  readonly openPasses: number;
  readonly vampPasses: number;
}

export const USUAL_ASSUMPTIONS: Assumptions = { openPasses: 4, vampPasses: 2 };

export interface LegLength {
  /** Id of the leg. */
  readonly leg: string;
  /** Of all its passes together. */
  readonly bars: number;
  readonly pulses: number;
  readonly ms: number;
  /** The number of passes is assumed, not written. */
  readonly assumed: boolean;
}

export interface RoadLength {
  readonly legs: readonly LegLength[];
  readonly ms: number;
  /** Some leg's length is assumed. */
  readonly assumed: boolean;
}

/**
 * How long a road is, leg by leg and as a whole: without count-in, pick-up and holds, with tempo words taken
 * where they stand. Milliseconds, not rounded.
 * Example: 12 bars of 4/4 at 120 last 24,000 ms.
 */
export const roadLength = (road: Road, assume: Partial<Assumptions> = {}): RoadLength => {
  const assumptions = { ...USUAL_ASSUMPTIONS, ...assume };
  let bpm = road.tempoBpm;
  const legs = road.legs.map((leg): LegLength => {
    const passes = passesOf(leg, assumptions);
    let bars = 0;
    let pulses = 0;
    let ms = 0;
    for (let pass = 1; pass <= passes; pass++) {
      for (const bar of pass === passes ? (leg.lastBars ?? leg.bars) : leg.bars) {
        bars += 1;
        pulses += bar.pulses;
        const played = playBar(bar, bpm, (when) => when === pass || (when === 'last' && pass === passes));
        ms += played.ms;
        bpm = played.bpm;
      }
    }
    return { leg: leg.id, bars, pulses, ms, assumed: typeof leg.passes !== 'number' };
  });
  return {
    legs,
    ms: legs.reduce((sum, leg) => sum + leg.ms, 0),
    assumed: legs.some(({ assumed }) => assumed),
  };
};

const passesOf = (leg: Leg, { openPasses, vampPasses }: Assumptions): number =>
  leg.passes === 'open' ? openPasses : leg.passes === 'vamp' ? vampPasses : leg.passes;

/** Length of one bar that begins at `bpm`, and the tempo after it. */
const playBar = (
  bar: RoadBar,
  bpm: number,
  isNow: (pass: number | 'last') => boolean,
): { readonly ms: number; readonly bpm: number } => {
  let now = bpm;
  let from = 0;
  let ms = 0;
  for (const { mark, atPulse, pass } of bar.marks) {
    if (mark.kind !== 'tempo' || (pass !== undefined && !isNow(pass))) continue;
    ms += ((atPulse - from) * 60_000) / now;
    from = atPulse;
    now = mark.bpm;
  }
  return { ms: ms + ((bar.pulses - from) * 60_000) / now, bpm: now };
};
