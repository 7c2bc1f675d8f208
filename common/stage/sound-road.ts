import type { Leg, Road, RoadBar } from '../form/road.ts';
import { isTempo } from './tempo.ts';

const SHORTEST_BAR_PULSES = 1 / 64;
const MOST_PASSES = 10_000;

const isBar = (bar: RoadBar): boolean => Number.isFinite(bar.pulses) && bar.pulses >= SHORTEST_BAR_PULSES;

const soundLeg = (leg: Leg): Leg => {
  const { lastBars, pickUp, ...rest } = leg;
  const bars = leg.bars.every(isBar) ? leg.bars : leg.bars.filter(isBar);
  const last = lastBars?.filter(isBar);
  const passes =
    typeof leg.passes === 'string'
      ? leg.passes
      : Math.min(MOST_PASSES, Math.max(1, Math.floor(leg.passes) || 1));
  return {
    ...rest,
    bars,
    passes,
    ...(last && last.length > 0 ? { lastBars: last } : {}),
    ...(pickUp && isBar(pickUp) ? { pickUp } : {}),
  };
};

const known = new WeakMap<Road, Road>();

/**
 * The road as it can be walked: bars without a length and legs without bars are dropped, a number of passes
 * is whole and at least 1, the tempo within 20–400 (else 120), the count-in 0–8 bars.
 */
export const soundRoad = (road: Road): Road => {
  const before = known.get(road);
  if (before) return before;
  const sound: Road = {
    ...road,
    legs: road.legs.map(soundLeg).filter((leg) => leg.bars.length > 0),
    tempoBpm: isTempo(road.tempoBpm) ? road.tempoBpm : 120,
    countBars: Math.min(8, Math.max(0, Math.floor(road.countBars) || 0)),
  };
  known.set(road, sound);
  known.set(sound, sound);
  return sound;
};
