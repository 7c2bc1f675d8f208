import type { BarSpan } from '../stage/course.ts';
import { roadAt } from '../stage/in-force.ts';
import { barsUntil, mannersUntil, type Passage, passagesBetween } from '../stage/passages.ts';
import type { Performance } from '../stage/perform.ts';
import { msAt } from '../stage/tempo.ts';
import type { BandSettings } from './band-settings.ts';
import { type BarFrame, barFrame, followingBar, pushOver } from './bar-frame.ts';
import { barStrokes } from './bar-strokes.ts';
import type { Change } from './changes.ts';
import { countEvents } from './click.ts';
import { holdOf, holdStrokes } from './hold-strokes.ts';
import { loudnessAt } from './loudness.ts';
import type { NoteEvent, Stroke } from './note-event.ts';

const SHORTEST_NOTE_MS = 20;
const VOICES = ['click', 'bass', 'comping', 'drums'];

/** What follows, with the changes that the band knows of it. */
const changesAfter = (
  performance: Performance,
  frame: BarFrame,
  { changes }: BandSettings,
): readonly Change[] => {
  const next = followingBar(frame);
  return next ? changes(next, roadAt(performance, next.startMs)) : [];
};

/** The bar's first chord was played at the end of the bar before. */
const isPushedInto = (
  performance: Performance,
  { before }: Passage,
  frame: BarFrame,
  settings: BandSettings,
): boolean => {
  if (before?.span.kind !== 'bar' || before.stretches.length === 0) return false;
  if (before.span.coming.index !== frame.coming.index - 1) return false;
  return pushOver(barFrame(performance, before.span, before, settings), frame.changes) !== null;
};

/** When a note ends: at the place that its length reaches, at a hold, at the latest where the take ends. */
const endMs = (frame: BarFrame, { atPulse, lengthPulses, voice }: Stroke, atMs: number): number => {
  const { stretches, next } = frame.passage;
  const count = frame.countAt(atPulse + lengthPulses);
  const found = stretches.find(({ toCount }) => count <= toCount) ?? stretches.at(-1);
  if (!found) return atMs;
  const wanted = found.tempo.still ? found.fromMs : msAt(found.tempo, count);
  // Only what is pushed over the line sounds on in the next bar, and nothing after the end.
  const isOver = next !== null && voice !== 'click' && atPulse + lengthPulses > frame.pulses + 1e-6;
  const lineMs = stretches.at(-1)?.toMs ?? wanted;
  return isOver ? wanted : Math.min(wanted, lineMs);
};

const barEvents = (
  performance: Performance,
  passage: Passage,
  span: BarSpan,
  settings: BandSettings,
): NoteEvent[] => {
  const frame = barFrame(performance, span, passage, settings);
  const next = changesAfter(performance, frame, settings);
  const last = passage.stretches.at(-1);
  // Within a hold nothing begins any more, and nobody may know when it ends.
  const lastMs = (last?.tempo.still ? last.fromMs : last?.toMs) ?? frame.coming.startMs;
  const manners = mannersUntil(performance, lastMs);
  const bars = barsUntil(performance, frame.coming.startMs);
  const event = (stroke: Stroke, atMs: number, untilMs: number): NoteEvent => {
    const { voice, midi, velocity } = stroke;
    const loudness = voice === 'click' ? 1 : loudnessAt(manners, bars, atMs);
    return {
      atMs,
      lengthMs: Math.max(SHORTEST_NOTE_MS, untilMs - atMs),
      voice,
      midi,
      velocity: Math.min(127, Math.max(1, Math.round(velocity * loudness))),
    };
  };
  const hold = holdOf(frame);
  const isHeldAt = (atMs: number): boolean => hold !== null && atMs >= hold.fromMs;
  const strokes = barStrokes(frame, settings, next, isPushedInto(performance, passage, frame, settings));
  const played = strokes.flatMap((stroke) => {
    const atMs = frame.momentAt(stroke.atPulse);
    if (atMs === null || (isHeldAt(atMs) && stroke.voice !== 'click')) return [];
    return [event(stroke, atMs, endMs(frame, stroke, atMs))];
  });
  const held = hold
    ? holdStrokes(frame, hold, settings).map((one) => event(one, hold.fromMs, hold.toMs))
    : [];
  return [...played, ...held];
};

const inOrder = (a: NoteEvent, b: NoteEvent): number =>
  a.atMs - b.atMs || VOICES.indexOf(a.voice) - VOICES.indexOf(b.voice) || a.midi - b.midi;

/**
 * What the practice band plays from one instant up to, and without, another, in order of time. By what has been called
 * so far: a cue that is called later changes what comes after its landing, and what leads into it by a pulse.
 *
 * Laws: the events of two windows that touch are those of the window over both; the same arguments give the same
 * events.
 * Example: a bar of `C7` in swing at 120: bass on 0, 500, 1000 and 1500 ms, ride cymbal on the same and on 889 and 1889.
 */
export const bandEvents = (
  performance: Performance,
  settings: BandSettings,
  fromMs: number,
  untilMs: number,
): NoteEvent[] => {
  const events = passagesBetween(performance, fromMs, untilMs).flatMap((passage) =>
    passage.span.kind === 'count'
      ? countEvents(passage.span, passage)
      : barEvents(performance, passage, passage.span, settings),
  );
  return events.filter(({ atMs }) => atMs >= fromMs && atMs < untilMs).sort(inOrder);
};
