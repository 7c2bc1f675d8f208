import { count } from '../../common/form/count.ts';
import type { Cue } from '../../common/stage/cue.ts';
import type { PodiumSettings } from '../storage/podium-settings.ts';
import type { Stretch } from './letters.ts';

type Loop = Extract<Cue, { kind: 'loop' }>;
type LoopSettings = Pick<PodiumSettings, 'loopCountIn' | 'loopStepBpm' | 'loopRounds'>;

/**
 * Touching bars to rehearse: the first touch is one bar, the second the other end, in whichever order; a third
 * begins anew, and so does a bar of another leg.
 */
export const touchBar = (chosen: Stretch | null, leg: string, barIndex: number): Stretch => {
  if (chosen === null || chosen.leg !== leg || chosen.from !== chosen.to) {
    return { leg, from: barIndex, to: barIndex };
  }
  return { leg, from: Math.min(chosen.from, barIndex), to: Math.max(chosen.to, barIndex) };
};

/** The cue that loops the bars as set up; faster from time to time only where the goal is above the tempo now. */
export const loopCue = (
  { leg, from, to }: Stretch,
  { loopCountIn, loopStepBpm, loopRounds }: LoopSettings,
  bpm: number,
  goalBpm: number,
): Loop => ({
  kind: 'loop',
  leg,
  from,
  to,
  countIn: loopCountIn,
  ...(loopStepBpm > 0 && goalBpm > bpm ? { stepBpm: loopStepBpm, everyRounds: loopRounds, goalBpm } : {}),
});

/** The tempo to which a spot is stepped up: the one asked for, else the written one; never below the tempo now. */
export const goalOf = (askedBpm: number | null, writtenBpm: number, bpm: number): number =>
  Math.max(Math.round(bpm), askedBpm ?? Math.round(writtenBpm));

/**
 * The tempos of the rounds to come, told before they are played.
 * @example tempoPlan(96, 4, 2, 106) // '96, 100, 104, 106: 6 rounds to the goal'
 */
export const tempoPlan = (bpm: number, stepBpm: number, everyRounds: number, goalBpm: number): string => {
  const from = Math.round(bpm);
  if (stepBpm <= 0 || goalBpm <= from) return `stays at ${from}`;
  const steps = Math.ceil((goalBpm - from) / stepBpm);
  const tempos = Array.from({ length: steps + 1 }, (_, k) => Math.min(goalBpm, from + k * stepBpm));
  const shown = tempos.length <= 5 ? tempos : [...tempos.slice(0, 3), '…', goalBpm];
  return `${shown.join(', ').replace(', …,', ' …')}: ${count(steps * everyRounds, 'round')} to the goal`;
};
