import { msOn } from './beat-estimate.ts';
import { beginCount } from './begin-count.ts';
import { countInFor } from './count-in-for.ts';
import type { Course } from './course.ts';
import { pursue } from './follow.ts';
import { enterLeg, type Spot } from './spot.ts';
import type { Tapped } from './tapped.ts';
import { collectTap, readCount } from './tapped-count.ts';
import type { Tempo } from './tempo.ts';

/**
 * A tap while the tune waits. As soon as the taps can only be one count, the take starts from the top at their tempo
 * and phase, in the middle of its count-in; where the chart has none, one bar is counted.
 */
export const countByTaps = (course: Course, tappedAtMs: number, atMs: number): Tapped['did'] => {
  const taps = collectTap(course.counting, tappedAtMs);
  if (taps === course.counting) return 'bounced';
  course.counting = taps;
  const top = enterLeg(course.road, 0) as Spot;
  const countIn = countInFor(top, Math.max(1, course.road.countBars));
  const read = readCount(taps, countIn, course.startBpm);
  if (!read) return 'collected';
  const zero = course.count;
  const beat = { ...read.beat, count: read.beat.count + zero };
  const tempo: Tempo = { fromCount: zero, fromMs: msOn(beat, zero), bpm: 60_000 / beat.pulseMs };
  course.tempo = tempo;
  course.following = { tempo, pursuit: pursue({ ...read, beat }, tappedAtMs) };
  course.counting = [];
  beginCount(course, countIn.spot, { count: zero, ms: atMs }, countIn);
  return 'countedIn';
};
