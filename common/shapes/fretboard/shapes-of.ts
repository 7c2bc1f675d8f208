import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import { type ChordNeeds, chordNeeds } from './chord-needs.ts';
import { fingeringOf } from './fingering.ts';
import type { FretInstrument } from './fret-instrument.ts';
import type { FretShape, ShapeKind } from './fret-shape.ts';
import { fretsMm, WIDEST_REACH_MM, WIDEST_SPAN_FRETS } from './hand.ts';
import { isComplete, shapeKinds } from './shape-kinds.ts';

/** What a player wants of shapes; what is left out is not restricted. */
export interface ShapeRules {
  /** Only shapes of these kinds. */
  readonly kinds?: readonly ShapeKind[];
  /** Whether somebody else plays the bass; true where it is left out, as in a band. */
  readonly bassPlays?: boolean;
  /** The register, as sounding MIDI pitches. */
  readonly lowestMidi?: number;
  readonly highestMidi?: number;
}

const MUTED = -1;
const OCTAVE = 12;
const MOST_INNER_MUTED = 2;
/** Above it an open string lies beside fingers that stand steep. */
const FIRST_POSITION = 4;
const STEEP_REACH_MM = 80;

/**
 * All shapes of a chord that a hand can play on an instrument, by rule from the chord's degrees; from the nut up.
 * The rules are SHAPE-1 to SHAPE-13 in `RULES.md`.
 */
export function shapesOf(
  symbol: ChordSymbol,
  instrument: FretInstrument,
  rules: ShapeRules = {},
): readonly FretShape[] {
  const needs = chordNeeds(symbol);
  const mm = fretsMm(instrument.highestFret, instrument.scaleLengthMm);
  const mayDouble = isReentrant(instrument.openMidi);
  const shapes: FretShape[] = [];
  eachPlacing(needs, instrument, mm, (frets, tones) => {
    const shape = shapeOf(frets, tones, needs, instrument.openMidi, mayDouble, mm, rules);
    if (shape !== null) shapes.push(shape);
  });
  return shapes.sort((a, b) => a.handFret - b.handFret);
}

/**
 * Calls `found` with every choice of a fret for each string that stays within the hand's span, mutes what it may
 * and has the tones that no shape leaves out. The list of frets is the same object each time.
 */
function eachPlacing(
  needs: ChordNeeds,
  { openMidi, highestFret }: FretInstrument,
  mm: readonly number[],
  found: (frets: readonly number[], tones: number) => void,
): void {
  const allowed = needs.chord | (needs.bass === null ? 0 : 1 << needs.bass);
  const strings = openMidi.length;
  const options = openMidi.map((open) =>
    Array.from({ length: highestFret + 1 }, (_, fret) => fret).filter(
      (fret) => (allowed & (1 << ((open + fret) % OCTAVE))) !== 0,
    ),
  );
  const frets = openMidi.map(() => MUTED);
  const place = (string: number, low: number, high: number, tones: number, innerMuted: number): void => {
    if (string === strings) {
      if (needs.core.every((set) => (tones & set) !== 0) && canMute(frets) && canRing(frets, mm))
        found(frets, tones);
      return;
    }
    const missing = needs.core.reduce((count, set) => count + ((tones & set) === 0 ? 1 : 0), 0);
    if (missing > strings - string) return;
    frets[string] = MUTED;
    place(string + 1, low, high, tones, innerMuted);
    for (const fret of options[string] as readonly number[]) {
      const silent = tones === 0 ? 0 : silentBefore(frets, string);
      const muted = innerMuted + silent;
      if (muted > MOST_INNER_MUTED || (silent > 0 && innerMuted > 0)) break;
      frets[string] = fret;
      const sound = tones | (1 << (((openMidi[string] as number) + fret) % OCTAVE));
      if (fret === 0) {
        place(string + 1, low, high, sound, muted);
        continue;
      }
      const from = Math.min(low, fret);
      const to = Math.max(high, fret);
      if (to - from > WIDEST_SPAN_FRETS || (mm[to] as number) - (mm[from] as number) > WIDEST_REACH_MM)
        continue;
      place(string + 1, from, to, sound, muted);
    }
    frets[string] = MUTED;
  };
  place(0, Number.POSITIVE_INFINITY, 0, 0, 0);
}

/** How many silent strings lie right before one. */
function silentBefore(frets: readonly number[], string: number): number {
  let count = 0;
  while (count < string && frets[string - 1 - count] === MUTED) count++;
  return count;
}

/** Silent strings between sounding ones each have a pressing finger beside them. */
function canMute(frets: readonly number[]): boolean {
  let first = 0;
  while (frets[first] === MUTED) first++;
  let last = frets.length - 1;
  while (frets[last] === MUTED) last--;
  for (let string = first + 1; string < last; string++) {
    if (frets[string] === MUTED && (frets[string - 1] as number) <= 0 && (frets[string + 1] as number) <= 0)
      return false;
  }
  return true;
}

/**
 * Open strings can ring beside a hand above the first position: its fingers stand steep, so they don't reach as
 * far, and a string inside is silent only where it is the only one.
 */
function canRing(frets: readonly number[], mm: readonly number[]): boolean {
  let low = Number.POSITIVE_INFINITY;
  let high = 0;
  let silent = 0;
  for (const fret of frets) {
    if (fret === MUTED) silent++;
    if (fret <= 0) continue;
    low = Math.min(low, fret);
    high = Math.max(high, fret);
  }
  if (high === 0 || low <= FIRST_POSITION || !frets.includes(0)) return true;
  if ((mm[high] as number) - (mm[low] as number) > STEEP_REACH_MM) return false;
  return silent <= 1 || !hasSilentInside(frets);
}

function hasSilentInside(frets: readonly number[]): boolean {
  const played = frets.map((fret) => fret !== MUTED);
  return played.slice(played.indexOf(true), played.lastIndexOf(true)).includes(false);
}

function shapeOf(
  placed: readonly number[],
  tones: number,
  needs: ChordNeeds,
  openMidi: readonly number[],
  mayDouble: boolean,
  mm: readonly number[],
  { kinds: wanted, bassPlays = true, lowestMidi = 0, highestMidi = 127 }: ShapeRules,
): FretShape | null {
  if (!isComplete(tones, needs) && tones !== needs.shell) return null;
  const midi = pitchesOf(placed, openMidi);
  if ((midi[0] as number) < lowestMidi || (midi.at(-1) as number) > highestMidi) return null;
  const kinds = shapeKinds({ frets: placed, midi, tones }, needs, bassPlays);
  if (kinds.length === 0 || (!mayDouble && hasDeadUnison(placed, midi, openMidi))) return null;
  const mayBeBarre = kinds.includes('full') && wanted?.includes('barre chord');
  if (wanted !== undefined && !mayBeBarre && !kinds.some((kind) => wanted.includes(kind))) return null;
  const fingering = fingeringOf(placed, mm);
  if (fingering === null) return null;
  const isBarre =
    kinds.includes('full') && fingering.barres.some(({ finger }) => finger === 1) && !placed.includes(0);
  const all: readonly ShapeKind[] = isBarre ? [...kinds, 'barre chord'] : kinds;
  if (wanted !== undefined && !all.some((kind) => wanted.includes(kind))) return null;
  const pressed = placed.filter((fret) => fret > 0);
  const degree = (pitch: number): string => needs.degrees[pitch % OCTAVE] as string;
  return {
    frets: placed.map((fret) => (fret === MUTED ? null : fret)),
    fingers: fingering.fingers,
    barres: fingering.barres,
    degrees: openMidi.map((open, string) => {
      const fret = placed[string] as number;
      return fret === MUTED ? null : degree(open + fret);
    }),
    midi,
    bassDegree: degree(midi[0] as number),
    isInverted: (midi[0] as number) % OCTAVE !== (needs.bass ?? needs.root),
    kinds: all,
    handFret: fingering.handFret,
    stretchMm:
      pressed.length === 0 ? 0 : (mm[Math.max(...pressed)] as number) - (mm[Math.min(...pressed)] as number),
  };
}

/** Sounding pitches, rising: strings mostly do, so that each pitch is put in its place from above. */
function pitchesOf(frets: readonly number[], openMidi: readonly number[]): readonly number[] {
  const midi: number[] = [];
  for (let string = 0; string < openMidi.length; string++) {
    const fret = frets[string] as number;
    if (fret === MUTED) continue;
    const pitch = (openMidi[string] as number) + fret;
    let place = midi.length;
    midi.push(pitch);
    for (; place > 0 && (midi[place - 1] as number) > pitch; place--) midi[place] = midi[place - 1] as number;
    midi[place] = pitch;
  }
  return midi;
}

/** A string lies lower than the one before it, as on a ukulele. */
const isReentrant = (openMidi: readonly number[]): boolean =>
  openMidi.some((open, string) => open < (openMidi[string - 1] ?? 0));

/** One pitch on two strings is worth a finger only where one of them is open and rings on. */
function hasDeadUnison(
  frets: readonly number[],
  midi: readonly number[],
  openMidi: readonly number[],
): boolean {
  for (let i = 1; i < midi.length; i++) {
    const pitch = midi[i] as number;
    if (midi[i - 1] === pitch && !openMidi.some((open, string) => open === pitch && frets[string] === 0))
      return true;
  }
  return false;
}
