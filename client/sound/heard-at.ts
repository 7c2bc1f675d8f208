import { type AudioSec, audioSec, type LocalMs, localMs } from '../../common/units.ts';

/** What an audio context tells of its clock. Some browsers lack the last two, and some tell nonsense. */
export interface AudioReading {
  readonly currentTime: number;
  /** The audio time that is heard at a moment of `performance.now()`. */
  readonly timestamp: { readonly contextTime?: number; readonly performanceTime?: number } | null;
  /** Seconds from the context to the ear. */
  readonly outputLatency: number | undefined;
}

/** A timestamp that is older than this says nothing of now. */
const OLDEST_MS = 500;

/**
 * What is heard when, in local time: by the browser's own timestamp where that is sane, else from the context's time
 * and what the browser tells of its latency (nothing: none; then a tap calibration has to make up for it).
 */
export const heardAt = (
  { currentTime, timestamp, outputLatency = 0 }: AudioReading,
  nowMs: LocalMs,
): { readonly audio: AudioSec; readonly local: LocalMs } => {
  const { contextTime = 0, performanceTime = 0 } = timestamp ?? {};
  const ageMs = nowMs - performanceTime;
  const isSane = contextTime > 0 && contextTime <= currentTime + 0.001 && ageMs >= 0 && ageMs < OLDEST_MS;
  if (isSane) return { audio: audioSec(contextTime), local: localMs(performanceTime) };
  const latencySec = Number.isFinite(outputLatency) && outputLatency > 0 ? outputLatency : 0;
  return { audio: audioSec(currentTime - latencySec), local: nowMs };
};
