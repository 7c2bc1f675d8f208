import type { BandSettings } from './band-settings.ts';
import { type BarFrame, followingBar, isRest, pushOver } from './bar-frame.ts';
import { bassStroke, bassStrokes } from './bass.ts';
import { bassPitch } from './bass-pitch.ts';
import { eighthOf } from './beats.ts';
import type { Change } from './changes.ts';
import { clickStrokes } from './click.ts';
import { chordStrokes, compingStrokes } from './comping.ts';
import { drumStrokes } from './drums.ts';
import type { Stroke } from './note-event.ts';
import { marksOf } from './played-hits.ts';

/** A chord that sounds an eighth early. */
interface Push {
  readonly change: Change;
  /** Where it is played, and where it is written: at the bar's end, where the next bar's is meant. */
  readonly atPulse: number;
  readonly ofPulse: number;
  /** Bar through the take and index of the change, by which the bass finds its octave. */
  readonly barIndex: number;
  readonly changeIndex: number;
}

const PUSH_VELOCITY = 88;
const SHORT_PULSES = 0.3;
const EDGE = 1e-6;

const pushesOf = (frame: BarFrame, nextChanges: readonly Change[]): Push[] => {
  if (frame.hits !== null) return [];
  const eighth = eighthOf(frame.metre);
  const inBar = frame.changes.flatMap((change, changeIndex): Push[] => {
    const atPulse = change.atPulse - eighth;
    if (!change.pushed || !change.chord || change.atPulse <= 0 || atPulse < 0 || isRest(frame, atPulse))
      return [];
    return [{ change, atPulse, ofPulse: change.atPulse, barIndex: frame.coming.index, changeIndex }];
  });
  const over = pushOver(frame, nextChanges);
  const first = nextChanges[0];
  const next = followingBar(frame);
  if (over === null || !first || !next) return inBar;
  return [
    ...inBar,
    { change: first, atPulse: over, ofPulse: frame.pulses, barIndex: next.index, changeIndex: 0 },
  ];
};

/** The chord played early takes the place of what would be played from there up to its own place. */
const withPushes = (
  strokes: readonly Stroke[],
  pushes: readonly Push[],
  frame: BarFrame,
  settings: BandSettings,
): Stroke[] => {
  const kept = strokes.filter(
    ({ atPulse }) => !pushes.some((push) => atPulse >= push.atPulse - EDGE && atPulse <= push.ofPulse + EDGE),
  );
  const early = pushes.flatMap(({ change, atPulse, ofPulse, barIndex, changeIndex }) => {
    const end = Math.min(ofPulse + change.lengthPulses, Math.max(frame.pulses, ofPulse + 1));
    const length = end - atPulse;
    if (!change.chord) return [];
    const root = bassPitch(change.chord, settings.seed, barIndex, changeIndex);
    return [
      ...chordStrokes(change, atPulse, length, PUSH_VELOCITY, settings),
      bassStroke(root, atPulse, length, PUSH_VELOCITY),
    ];
  });
  return [...kept, ...early].sort((a, b) => a.atPulse - b.atPulse);
};

/** Each note of a voice ends where the next of that voice or a rest begins; short ones at once, those that ring with the bar. */
const withLengths = (strokes: readonly Stroke[], frame: BarFrame): Stroke[] => {
  const marks = marksOf(frame.coming);
  const isMarked = (kind: 'short' | 'letRing', pulse: number): boolean =>
    marks.some(({ mark, atPulse }) => mark.kind === kind && Math.abs(atPulse - pulse) < EDGE);
  return strokes.map((stroke) => {
    if (isMarked('short', stroke.atPulse)) return { ...stroke, lengthPulses: SHORT_PULSES };
    if (isMarked('letRing', stroke.atPulse)) {
      return { ...stroke, lengthPulses: frame.pulses - stroke.atPulse };
    }
    const next = strokes.find(
      ({ voice, atPulse }) => voice === stroke.voice && atPulse > stroke.atPulse + EDGE,
    );
    const rest = frame.changes.find(
      ({ kind, atPulse }) => kind === 'rest' && atPulse > stroke.atPulse + EDGE,
    );
    const edge = Math.min(
      next?.atPulse ?? Number.POSITIVE_INFINITY,
      rest?.atPulse ?? Number.POSITIVE_INFINITY,
    );
    return { ...stroke, lengthPulses: Math.min(stroke.lengthPulses, edge - stroke.atPulse) };
  });
};

/** In a turn of the drums the others lay out. */
const isDrumsTurn = ({ coming }: BarFrame): boolean => coming.turn?.now.toLowerCase() === 'drums';

/**
 * All that is played in a bar, at its places. What is written and called for the bar goes before what each part
 * would play by itself: silence and hits, rests, pushes.
 * @param nextChanges the changes of the bar that follows
 * @param isPushedInto its first chord was played in the bar before
 */
export const barStrokes = (
  frame: BarFrame,
  settings: BandSettings,
  nextChanges: readonly Change[],
  isPushedInto: boolean,
): Stroke[] => {
  const pushes = pushesOf(frame, nextChanges);
  const isGone = ({ atPulse }: Stroke): boolean => isRest(frame, atPulse) || (isPushedInto && atPulse < EDGE);
  const pitched = isDrumsTurn(frame)
    ? []
    : withPushes(
        [...compingStrokes(frame, settings, nextChanges), ...bassStrokes(frame, settings, nextChanges)]
          .filter((stroke) => !isGone(stroke))
          .sort((a, b) => a.atPulse - b.atPulse),
        pushes,
        frame,
        settings,
      );
  const caught = pushes.map(({ atPulse }) => atPulse);
  const drums = drumStrokes(frame, settings, caught).filter(
    ({ atPulse }) => !isRest(frame, atPulse) && !(frame.hits !== null && isPushedInto && atPulse < EDGE),
  );
  return withLengths([...pitched, ...drums, ...clickStrokes(frame, settings.click)], frame);
};
