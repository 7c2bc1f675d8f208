import type { Mark } from '../chart/bar-music.ts';
import type { Leg, Road, RoadBar, RoadMark } from '../form/road.ts';

/** A bar on the road: where the walk is, and how often the leg will be played as far as is known. */
export interface Spot {
  readonly leg: Leg;
  /** Index in the road in force of the leg that follows. */
  readonly next: number;
  readonly pass: number;
  /** The pass that is the last; Infinity while the leg is open or a vamp. */
  readonly limit: number;
  /** The limit was made by a cue, so that another road does not change it. */
  readonly limitCalled: boolean;
  readonly barIndex: number;
  /** Which bars this pass took where the last pass parts from the others; '' before it comes there. */
  readonly parted: '' | 'bars' | 'lastBars';
}

const writtenLimit = (leg: Leg): number =>
  typeof leg.passes === 'number' ? leg.passes : Number.POSITIVE_INFINITY;

const sameBar = (a: RoadBar, b: RoadBar): boolean =>
  a.id === b.id && a.pulses === b.pulses && a.phraseEnd === b.phraseEnd;

const MOVING: readonly Mark['kind'][] = ['tempo', 'rit', 'accel', 'aTempo', 'hold', 'onCue'];

/** A tempo or a hold of the last pass only moves every bar line after it: it parts the passes like a coda. */
const movesLastPass = ({ mark, pass }: RoadMark): boolean => pass === 'last' && MOVING.includes(mark.kind);

const findParting = ({ bars, lastBars }: Leg): number => {
  const moved = bars.findIndex(({ marks }) => marks.some(movesLastPass));
  const here = moved < 0 ? Number.POSITIVE_INFINITY : moved;
  if (!lastBars) return here;
  const shorter = Math.min(bars.length, lastBars.length);
  let i = 0;
  while (i < shorter && sameBar(bars[i] as RoadBar, lastBars[i] as RoadBar)) i += 1;
  if (i === bars.length && i === lastBars.length) return here;
  return Math.min(here, i);
};

const partings = new WeakMap<Leg, number>();

/** Index of the first bar in which the last pass differs from the others; Infinity where it does not. */
export const partingOf = (leg: Leg): number => {
  let parting = partings.get(leg);
  if (parting === undefined) {
    parting = findParting(leg);
    partings.set(leg, parting);
  }
  return parting;
};

export const isLastPass = (spot: Spot): boolean => spot.pass >= spot.limit;

/** The bars of the pass that the spot is in, as far as is known. */
export const barsOf = (spot: Spot): readonly RoadBar[] => {
  const { leg, parted } = spot;
  if (!leg.lastBars || parted === 'bars') return leg.bars;
  return parted === 'lastBars' || isLastPass(spot) ? leg.lastBars : leg.bars;
};

/** The bar at the spot; the pick-up at index −1. */
export const barOf = (spot: Spot): RoadBar | undefined =>
  spot.barIndex < 0 ? spot.leg.pickUp : barsOf(spot)[spot.barIndex];

/** Index of the first of the last `bars` bars of the pass, as far as is known; the first bar where it has fewer. */
export const lastBarsIndex = (spot: Spot, bars: number): number => Math.max(0, barsOf(spot).length - bars);

/** The spot at another bar of its pass; at the bar where the passes part it is settled which bars are taken. */
export const atBar = (spot: Spot, barIndex: number): Spot => {
  if (barIndex < partingOf(spot.leg)) return { ...spot, barIndex, parted: '' };
  if (spot.parted !== '') return { ...spot, barIndex };
  return { ...spot, barIndex, parted: isLastPass(spot) ? 'lastBars' : 'bars' };
};

/** The first bar of another pass of the same leg. */
export const atPass = (spot: Spot, pass: number, barIndex = 0): Spot =>
  atBar({ ...spot, pass, parted: '', limit: Math.max(spot.limit, pass) }, barIndex);

/** A leg of the road entered anew, its passes as written. */
export const enterLeg = (road: Road, index: number, pass = 1, barIndex = 0): Spot | null => {
  const leg = road.legs[index];
  if (!leg) return null;
  const limit = Math.max(writtenLimit(leg), pass);
  return atBar({ leg, next: index + 1, pass, limit, limitCalled: false, barIndex: 0, parted: '' }, barIndex);
};

/** The same spot in a leg that another road has in its place. */
export const onNewLeg = (spot: Spot, leg: Leg, next: number): Spot => ({
  ...spot,
  leg,
  next,
  limit: spot.limitCalled ? spot.limit : writtenLimit(leg),
});

/** A whole number of at least 1, or nothing said. */
export const isPass = (pass: number | undefined): boolean =>
  pass === undefined || (Number.isInteger(pass) && pass >= 1 && pass <= 1_000_000);
