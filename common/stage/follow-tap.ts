import { beatOf, leadTo } from './bend.ts';
import type { Course, Span } from './course.ts';
import type { Cue } from './cue.ts';
import { writePiece } from './enter-bar.ts';
import { beginPursuit, hearTap } from './follow.ts';
import { nearestDownbeat, nearestPulse } from './nearest-pulse.ts';
import type { Tapped } from './tapped.ts';
import type { Tempo } from './tempo.ts';

type Tap = Extract<Cue, { kind: 'tap' }>;

/** A tap while the band plays or is counted in: bends the tempo from its arrival on, in place of any ramp. */
export const followTap = (
  course: Course,
  { tappedAtMs, downbeat = false }: Tap,
  atMs: number,
): Pick<Tapped, 'did' | 'errorMs'> => {
  const tempo = course.tempo as Tempo;
  const span = course.span as Span;
  const known = course.following?.tempo === tempo ? course.following.pursuit : null;
  const before = known ?? beginPursuit(beatOf(tempo, atMs));
  const nearest = downbeat ? nearestDownbeat : nearestPulse;
  const { pursuit, did, errorMs } = hearTap(before, tappedAtMs, (count) => nearest(span, count));
  if (did === 'followed') {
    course.tempo = leadTo(pursuit.estimate.beat, tempo, atMs);
    writePiece(course, atMs);
  }
  course.following = { tempo: course.tempo as Tempo, pursuit };
  return { did, errorMs };
};
