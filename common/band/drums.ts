import type { BarFrame } from './bar-frame.ts';
import type { Beat } from './beats.ts';
import { chance, pick } from './chance.ts';
import { DRUMS, type Drum } from './drum-kit.ts';
import { DRUM_PATTERNS, type DrumLine, type DrumPattern, FILLS } from './drum-patterns.ts';
import type { Stroke } from './note-event.ts';
import { patternPlaces } from './pattern-places.ts';
import { caughtKicks, marksOf } from './played-hits.ts';

/** Sixteenths are left out where a beat is shorter, those of fills too. */
const SHORTEST_BEAT_FOR_SIXTEENTHS_MS = 360;
const STROKE_PULSES = 0.25;
/** What a chance is for. */
const FILL = 1;
const QUIET = new Set(['ballad', 'brushes']);

export const drumStroke = (drum: Drum, atPulse: number, velocity: number): Stroke => ({
  voice: 'drums',
  atPulse,
  lengthPulses: STROKE_PULSES,
  midi: DRUMS[drum],
  velocity,
});

const strokesOf = (lines: readonly DrumLine[], beats: readonly Beat[], withSixteenths: boolean): Stroke[] =>
  lines.flatMap(({ drum, counts, velocity }) =>
    patternPlaces(counts, beats, withSixteenths).map((place) => drumStroke(drum, place, velocity)),
  );

/** The time that a pattern keeps through the bar. */
const timeOf = (frame: BarFrame, pattern: DrumPattern): Stroke[] => {
  const { beats, cells, coming, beatMs } = frame;
  const fine = beatMs >= SHORTEST_BEAT_FOR_SIXTEENTHS_MS;
  const { bars = [], otherwise = [] } = pattern;
  const isWhole = beats.length === 4 && beats.every(({ parts }) => parts === 2);
  const whole = isWhole ? (bars[coming.place.barIndex % Math.max(1, bars.length)] ?? []) : [];
  return [
    ...strokesOf(whole, beats, fine),
    ...cells.flatMap(({ beats: inCell }) => [
      ...strokesOf(inCell.length === 3 ? pattern.three : pattern.two, inCell, fine),
      ...(isWhole ? [] : strokesOf(otherwise, inCell, fine)),
    ]),
  ];
};

/** A section or the form ends with this bar, as it is written; a round of a loop too. */
const endsSection = ({ coming }: BarFrame): boolean => {
  const { place, passBars, leg, bar, loop } = coming;
  const bars = leg.lastBars?.[place.barIndex] === bar ? leg.lastBars : leg.bars;
  return (
    place.barIndex === passBars - 1 ||
    loop?.to === place.barIndex ||
    bars[place.barIndex + 1]?.content.letter !== undefined
  );
};

const opensSection = ({ coming }: BarFrame): boolean =>
  coming.place.barIndex === 0 || coming.bar.content.letter !== undefined;

/** The pulse from which the drums fill the bar; Infinity where they keep time. */
const fillFrom = (frame: BarFrame, fills: boolean): number => {
  const { beats, coming } = frame;
  const written = marksOf(coming).find(({ mark }) => mark.kind === 'fill');
  if (written) return written.atPulse;
  if (!fills || beats.length < 2 || !endsSection(frame)) return Number.POSITIVE_INFINITY;
  return beats[beats.length - 2]?.atPulse ?? 0;
};

/** Fills of two beats, one after the other, from a beat on. */
const fillStrokes = (frame: BarFrame, from: number, seed: number): Stroke[] => {
  const { beats, beatMs, coming } = frame;
  const fine = beatMs >= SHORTEST_BEAT_FOR_SIXTEENTHS_MS;
  const fitting = FILLS.filter(({ sixteenths }) => fine || !sixteenths);
  const strokes: Stroke[] = [];
  let at = beats.findIndex(({ atPulse }) => atPulse >= from - 1e-6);
  // Of an odd number of beats the first one keeps time.
  if (at >= 0 && (beats.length - at) % 2 === 1 && beats.length - at > 1) at += 1;
  for (; at >= 0 && at < beats.length; at += 2) {
    const { lines } = pick(fitting, chance(seed, coming.index, FILL, at));
    strokes.push(...strokesOf(lines, beats.slice(at, at + 2), fine));
  }
  return strokes;
};

const accent = (places: readonly number[], isQuiet: boolean): Stroke[] =>
  places.flatMap((place) => [
    drumStroke('kick', place, 96),
    drumStroke(isQuiet ? 'slap' : 'snare', place, isQuiet ? 76 : 96),
    ...(isQuiet ? [] : [drumStroke('crash', place, 88)]),
  ]);

/** One stroke of a drum at a place, the loudest. */
const onceEach = (strokes: readonly Stroke[]): Stroke[] => {
  const loudest = new Map<string, Stroke>();
  for (const stroke of strokes) {
    const key = `${stroke.midi} ${Math.round(stroke.atPulse * 1e6)}`;
    if (stroke.velocity > (loudest.get(key)?.velocity ?? 0)) loudest.set(key, stroke);
  }
  return [...loudest.values()];
};

/**
 * What the drums play in a bar: hits where only hits are played, else time, with the kicks caught, a fill where a
 * section ends and a cymbal where one begins. In a turn of their own they fill all of it.
 * @param caught chords that are pushed: places to be accented
 */
export const drumStrokes = (
  frame: BarFrame,
  { seed, fills }: { readonly seed: number; readonly fills: boolean },
  caught: readonly number[],
): Stroke[] => {
  const { playing, hits, coming } = frame;
  const isQuiet = QUIET.has(playing.style.drums);
  if (hits !== null) return accent(hits, isQuiet);
  const isOwnTurn = coming.turn?.now.toLowerCase() === 'drums';
  const from = isOwnTurn ? 0 : fillFrom(frame, fills);
  const fill = Number.isFinite(from) ? fillStrokes(frame, from, seed) : [];
  const fillBegins = Math.min(...fill.map(({ atPulse }) => atPulse), Number.POSITIVE_INFINITY);
  const time = timeOf(frame, DRUM_PATTERNS[playing.style.drums]).filter(
    ({ atPulse, midi }) => atPulse < fillBegins - 1e-6 || midi === DRUMS.footHat,
  );
  const top =
    fills && opensSection(frame) && !isOwnTurn
      ? [drumStroke(isQuiet ? 'ride' : 'crash', 0, isQuiet ? 56 : 84), drumStroke('kick', 0, 80)]
      : [];
  return onceEach([...time, ...fill, ...top, ...accent([...caughtKicks(coming), ...caught], isQuiet)]);
};
