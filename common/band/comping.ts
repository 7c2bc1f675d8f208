import type { BandSettings } from './band-settings.ts';
import { type BarFrame, followingBar, isRest } from './bar-frame.ts';
import { eighthOf } from './beats.ts';
import { type Change, changeAt } from './changes.ts';
import { fitRhythm } from './fit-rhythm.ts';
import type { Stroke } from './note-event.ts';
import { caughtKicks, playedHits } from './played-hits.ts';
import { type NamedRhythm, RHYTHMS, rhythmOf } from './rhythm-library.ts';

const SHORT_PULSES = 0.45;
const VELOCITY = 68;
const HIT_VELOCITY = 90;

/** Chords at a place of the bar. */
export const chordStrokes = (
  change: Change | null,
  atPulse: number,
  lengthPulses: number,
  velocity: number,
  { voicing }: Pick<BandSettings, 'voicing'>,
): Stroke[] =>
  change?.chord
    ? voicing(change.chord.symbol, change).map((midi) => ({
        voice: 'comping',
        atPulse,
        lengthPulses,
        midi,
        velocity,
      }))
    : [];

/**
 * Every chord that is struck in the bar is heard: those in which the rhythm has no stroke, and those after a rest, get
 * one where they begin.
 */
const withEveryChord = (places: readonly number[], { changes }: BarFrame, eighth: number): number[] => {
  const isHeard = ({ atPulse, lengthPulses }: Change): boolean =>
    places.some(
      (place) => place >= atPulse - eighth - 1e-6 && place < atPulse + lengthPulses - eighth + 1e-6,
    );
  const missing = changes.filter((change, i) => {
    if (change.chord === null || places.includes(change.atPulse)) return false;
    return changes[i - 1]?.kind === 'rest' || (!change.carried && !isHeard(change));
  });
  return [...places, ...missing.map(({ atPulse }) => atPulse)].sort((a, b) => a - b);
};

/** The chord for a stroke: one that begins an eighth later, on a beat, is anticipated. */
const chordFor = (
  frame: BarFrame,
  place: number,
  nextChanges: readonly Change[],
  eighth: number,
): Change | null => {
  const here = changeAt(frame.changes, place);
  const isOff = frame.beats.every(({ atPulse }) => Math.abs(atPulse - place) > 1e-6);
  if (!isOff || (here && Math.abs(here.atPulse - place) < 1e-6)) return here;
  const within = (at: number): boolean => at > place && at - place <= eighth + 1e-6;
  const soon = frame.changes.find(({ atPulse }) => within(atPulse));
  if (soon) return soon.chord ? soon : here;
  const next = within(frame.pulses) ? followingBar(frame) : null;
  const first = nextChanges[0];
  return next && playedHits(next) === null && first?.chord && !first.carried ? first : here;
};

/**
 * What is comped in a bar: the rhythm asked for, or the feel's, laid into the metre; every chord is heard.
 * @param nextChanges the changes of the bar that follows
 */
export const compingStrokes = (
  frame: BarFrame,
  settings: BandSettings,
  nextChanges: readonly Change[],
): Stroke[] => {
  const { hits, playing, metre, beats, pulses, coming } = frame;
  if (hits !== null) {
    return hits.flatMap((place) =>
      chordStrokes(changeAt(frame.changes, place), place, SHORT_PULSES, HIT_VELOCITY, settings),
    );
  }
  const named: NamedRhythm = RHYTHMS[playing.style.comping][0];
  const rhythm = settings.comping ?? rhythmOf(named);
  const isShort = settings.comping === null && named.short === true;
  const kicks = caughtKicks(coming);
  const eighth = eighthOf(metre);
  const plain = playing.speed === 'plain';
  const wanted =
    kicks.length > 0
      ? kicks
      : withEveryChord(
          fitRhythm(rhythm, metre, beats, { turn: coming.place.barIndex, plain }),
          frame,
          eighth,
        );
  const places = wanted.filter((place) => !isRest(frame, place));
  return places.flatMap((place, i) => {
    const untilNext = (places[i + 1] ?? pulses) - place;
    const length = isShort ? Math.min(SHORT_PULSES, untilNext) : untilNext;
    const velocity = kicks.length > 0 ? HIT_VELOCITY : VELOCITY;
    return chordStrokes(chordFor(frame, place, nextChanges, eighth), place, length, velocity, settings);
  });
};
