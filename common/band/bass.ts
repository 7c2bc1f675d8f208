import { bassNotes } from '../theory/harmony/bass-notes.ts';
import { pitchClassOf } from '../theory/pitch.ts';
import type { BandSettings } from './band-settings.ts';
import { type BarFrame, followingBar } from './bar-frame.ts';
import { BASS_PATTERNS, type BassManner, type BassRole } from './bass-patterns.ts';
import { above, bassPitch, nearest } from './bass-pitch.ts';
import { type Change, type Chord, changeAt } from './changes.ts';
import type { Stroke } from './note-event.ts';
import { patternPlaces } from './pattern-places.ts';
import { playedHits } from './played-hits.ts';
import { diceFor, walk } from './walk.ts';

const HIT_VELOCITY = 94;
const HIT_PULSES = 0.45;
const WALKING = { held: 0.92, strong: 88, weak: 82 } as const;
const SHORTEST_BEAT_FOR_SIXTEENTHS_MS = 300;

export const bassStroke = (
  midi: number,
  atPulse: number,
  lengthPulses: number,
  velocity: number,
): Stroke => ({ voice: 'bass', atPulse, lengthPulses, midi, velocity });

/** A chord of the bar with its index among the changes. */
interface Segment extends Change {
  readonly chord: Chord;
  readonly index: number;
}

const segmentsOf = ({ changes }: BarFrame): Segment[] =>
  changes.flatMap((change, index) => (change.chord ? [{ ...change, chord: change.chord, index }] : []));

/** The chord that follows a segment, in this bar or on one of the next, and where its bass lies. */
const nextOf = (
  frame: BarFrame,
  segment: Segment,
  nextChanges: readonly Change[],
  seed: number,
): { chord: Chord; pitch: number } | null => {
  const inBar = frame.changes[segment.index + 1];
  if (inBar) {
    const { chord } = inBar;
    return chord && { chord, pitch: bassPitch(chord, seed, frame.coming.index, segment.index + 1) };
  }
  const bar = followingBar(frame);
  const chord = nextChanges[0]?.chord;
  const hits = bar ? playedHits(bar) : null;
  if (!bar || !chord || (hits !== null && !hits.includes(0))) return null;
  return { chord, pitch: bassPitch(chord, seed, bar.index, 0) };
};

/** A chord that goes on from the bar before may begin with another of its notes. */
const startOf = (segment: Segment, root: number, dice: (what: number) => number): number => {
  if (!segment.carried || dice(3) < 0.5) return root;
  const { fifth } = bassNotes(segment.chord.symbol, null, segment.chord.key);
  return above(root, pitchClassOf(fifth));
};

const walking = (frame: BarFrame, nextChanges: readonly Change[], seed: number): Stroke[] =>
  segmentsOf(frame).flatMap((segment) => {
    const { chord, atPulse, lengthPulses, index } = segment;
    const end = atPulse + lengthPulses;
    const inside = frame.beats.filter((beat) => beat.atPulse >= atPulse - 1e-6 && beat.atPulse < end - 1e-6);
    const onset = inside[0] && Math.abs(inside[0].atPulse - atPulse) < 1e-6 ? [] : [atPulse];
    const places = [...onset, ...inside.map((beat) => beat.atPulse)];
    // The note that leads on comes on the last pulse: before that nobody knows for sure what follows.
    if (end - (places.at(-1) ?? end) > 1 + 1e-6) places.push(end - 1);
    const dice = diceFor(seed, frame.coming.index, index);
    const root = bassPitch(chord, seed, frame.coming.index, index);
    const next = nextOf(frame, segment, nextChanges, seed);
    const pitches = walk(
      { chord, beats: places.length, startPitch: startOf(segment, root, dice), next },
      dice,
    );
    return places.map((place, i) => {
      const length = ((places[i + 1] ?? end) - place) * WALKING.held;
      return bassStroke(pitches[i] ?? root, place, length, i % 2 === 0 ? WALKING.strong : WALKING.weak);
    });
  });

/** In every second group of beats of a chord root and fifth change places. */
const swapped = (role: BassRole): BassRole => (role === 'root' ? 'fifth' : role === 'fifth' ? 'root' : role);

const ALTERNATES = new Set<BassManner>(['two', 'waltz', 'bossa', 'latin']);

const pitchOf = (
  role: BassRole,
  { chord, index }: Segment,
  root: number,
  approach: () => number | null,
  barSeed: readonly [number, number],
): number => {
  const fifth = () => above(root, pitchClassOf(bassNotes(chord.symbol, null, chord.key).fifth));
  switch (role) {
    case 'root':
      return root;
    case 'octave':
      return root + 12;
    case 'fifth':
      return fifth();
    case 'approach':
      return diceFor(...barSeed, index)(4) < 0.7 ? (approach() ?? fifth()) : fifth();
  }
};

/** Bass by a pattern for groups of two and three beats; every chord begins with its bass. */
const byPattern = (
  frame: BarFrame,
  manner: Exclude<BassManner, 'walking'>,
  nextChanges: readonly Change[],
  seed: number,
): Stroke[] => {
  const { two, three, held } = BASS_PATTERNS[manner];
  const fine = frame.beatMs >= SHORTEST_BEAT_FOR_SIXTEENTHS_MS;
  const segments = segmentsOf(frame);
  const barIndex = frame.coming.index;
  const notes = new Map<number, { midi: number; velocity: number }>();
  for (const { beats, index } of frame.cells) {
    const from = beats[0]?.atPulse ?? 0;
    const last = beats.at(-1);
    const end = last ? last.atPulse + last.lengthPulses : from;
    for (const { counts, role, velocity } of beats.length === 3 ? three : two) {
      for (const place of patternPlaces(counts, beats, fine)) {
        const change = changeAt(frame.changes, place);
        const segment = segments.find((one) => frame.changes[one.index] === change);
        if (!segment) continue;
        const begun = frame.cells.findLast((cell) => (cell.beats[0]?.atPulse ?? 0) <= segment.atPulse + 1e-6);
        const isOdd = ALTERNATES.has(manner) && (index - (begun?.index ?? 0)) % 2 === 1;
        const root = bassPitch(segment.chord, seed, barIndex, segment.index);
        const isLast = segment.atPulse + segment.lengthPulses <= end + 1e-6;
        const next = isLast ? nextOf(frame, segment, nextChanges, seed) : null;
        const approach = () => approachTo(segment.chord, next);
        const played = isOdd ? swapped(role) : role;
        notes.set(place, { midi: pitchOf(played, segment, root, approach, [seed, barIndex]), velocity });
      }
    }
  }
  for (const { chord, atPulse, index, carried } of segments) {
    if (carried && notes.has(atPulse)) continue;
    notes.set(atPulse, { midi: bassPitch(chord, seed, barIndex, index), velocity: 88 });
  }
  const places = [...notes.keys()].sort((a, b) => a - b);
  return places.map((place, i) => {
    const { midi, velocity } = notes.get(place) as { midi: number; velocity: number };
    return bassStroke(midi, place, ((places[i + 1] ?? frame.pulses) - place) * held, velocity);
  });
};

const approachTo = (chord: Chord, next: { chord: Chord; pitch: number } | null): number | null => {
  const way = next && bassNotes(chord.symbol, next.chord.symbol, next.chord.key).approaches[0];
  return next && way ? nearest(next.pitch, pitchClassOf(way.note)) : null;
};

/** How the bass plays: as asked for, in two or in four as said, else as the feel has it. */
const mannerOf = ({ playing: { style, motion } }: BarFrame, { bass }: BandSettings): BassManner => {
  if (bass) return bass;
  if (motion === 'two') return 'two';
  return motion === 'four' ? 'walking' : style.bass;
};

/** What the bass plays in a bar: the root on hits where only hits are played, else its line. */
export const bassStrokes = (
  frame: BarFrame,
  settings: BandSettings,
  nextChanges: readonly Change[],
): Stroke[] => {
  const { seed } = settings;
  if (frame.hits !== null) {
    return frame.hits.flatMap((place) => {
      const change = changeAt(frame.changes, place);
      if (!change?.chord) return [];
      const index = frame.changes.indexOf(change);
      const midi = bassPitch(change.chord, seed, frame.coming.index, index);
      return [bassStroke(midi, place, HIT_PULSES, HIT_VELOCITY)];
    });
  }
  const manner = mannerOf(frame, settings);
  return manner === 'walking'
    ? walking(frame, nextChanges, seed)
    : byPattern(frame, manner, nextChanges, seed);
};
