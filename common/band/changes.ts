import type { BarMusic } from '../chart/bar-music.ts';
import type { HarmonyChord } from '../form/pass-harmony.ts';
import type { Leg, Road } from '../form/road.ts';
import { type LegHarmony, roadHarmony } from '../form/road-harmony.ts';
import type { ComingBar } from '../stage/place.ts';
import { type ChordSymbol, readChordSymbol } from '../theory/chord-symbol.ts';
import { chordPitchClasses } from '../theory/chord-tones.ts';
import { scaleChoices } from '../theory/harmony/scale-choice.ts';
import { type Key, makeKey, readKey } from '../theory/key.ts';
import { pitchClassOf } from '../theory/pitch.ts';
import { type Reading, readingFor, transposeKey, transposeSymbol } from '../theory/transpose.ts';
import type { ChordPlace } from './voicing.ts';

/** A chord of a bar as it sounds, and what a bass has to know of it. */
export interface Chord {
  readonly symbol: ChordSymbol;
  /** In which it is heard. */
  readonly key: Key;
  /** Pitch classes of the chord and its bass, and of the scale over it (the chord's own where none fits). */
  readonly tones: readonly number[];
  readonly scale: readonly number[];
}

/** What sounds over a stretch of a bar. */
export interface Change extends ChordPlace {
  readonly kind: 'chord' | 'rest' | 'noChord' | 'unknown';
  /** Null unless its kind is chord. */
  readonly chord: Chord | null;
  readonly atPulse: number;
  readonly lengthPulses: number;
  readonly pushed: boolean;
  /** Goes on from the bar before. */
  readonly carried: boolean;
}

/** The changes of a bar as the band plays it, in the key of the moment. */
export type ReadChanges = (coming: ComingBar, road: Road) => readonly Change[];

/**
 * Reads changes for the practice band, and keeps what it has worked out: whoever plays a tune makes one of these and
 * goes on using it.
 * @param music what the bars mean now, by id, where the chart was corrected since the road was made
 */
export const readChangesOf = (music: ReadonlyMap<string, BarMusic> = new Map()): ReadChanges => {
  const roads = new WeakMap<Road, Map<number, ReadonlyMap<string, LegHarmony>>>();
  const legs = new WeakMap<Leg, Map<number, LegHarmony | null>>();
  const known = new WeakMap<HarmonyChord, Chord>();

  const onRoad = (road: Road, semitones: number): ReadonlyMap<string, LegHarmony> => {
    const byKey = roads.get(road) ?? new Map<number, ReadonlyMap<string, LegHarmony>>();
    roads.set(road, byKey);
    let harmony = byKey.get(semitones);
    if (!harmony) {
      const reading = readingOf(road, semitones);
      harmony = new Map(roadHarmony(road, reading, music).map((leg) => [leg.leg, leg]));
      byKey.set(semitones, harmony);
    }
    return harmony;
  };

  const inLeg = (leg: Leg, road: Road, semitones: number): LegHarmony | null => {
    // A tag that was called is no leg of the road.
    if (road.legs.includes(leg)) return onRoad(road, semitones).get(leg.id) ?? null;
    const byKey = legs.get(leg) ?? new Map<number, LegHarmony | null>();
    legs.set(leg, byKey);
    let harmony = byKey.get(semitones);
    if (harmony === undefined) {
      harmony = roadHarmony({ ...road, legs: [leg] }, readingOf(road, semitones), music)[0] ?? null;
      byKey.set(semitones, harmony);
    }
    return harmony;
  };

  const chordOf = (harmony: HarmonyChord): Chord => {
    let chord = known.get(harmony);
    if (!chord) {
      chord = chordIn(harmony);
      known.set(harmony, chord);
    }
    return chord;
  };

  return (coming, road) => {
    const { bar, leg, place, semitones = 0 } = coming;
    const meaning = music.get(bar.id) ?? bar.content.music;
    const harmony = inLeg(leg, road, semitones);
    const isLast = leg.lastBars?.[place.barIndex] === bar && leg.bars[place.barIndex] !== bar;
    const chords = (isLast ? harmony?.lastPass : harmony?.pass)?.chords ?? [];
    return meaning.cells.flatMap((written, cell): Change[] => {
      const { atPulse, pushed, carried } = written;
      const lengthPulses = Math.min(written.lengthPulses, bar.pulses - atPulse);
      if (!(lengthPulses > 0)) return [];
      const found = chords.find((one) => one.barIndex === place.barIndex && one.cell === cell);
      const plain = found
        ? null
        : plainChord(written.kind === 'chord' ? written.symbol : '', meaning.key, road, semitones);
      const chord = found ? chordOf(found) : plain;
      const kind = written.kind === 'chord' && !chord ? 'unknown' : written.kind;
      return [
        {
          coming,
          cell,
          kind,
          chord: kind === 'chord' ? chord : null,
          atPulse,
          lengthPulses,
          pushed,
          carried,
        },
      ];
    });
  };
};

const readingOf = (road: Road, semitones: number): Reading => readingFor(readKey(road.key), semitones);

/** A chord whose harmony nobody has worked out: a pick-up's. */
const plainChord = (text: string, keyText: string, road: Road, semitones: number): Chord | null => {
  const reading = readingOf(road, semitones);
  const symbol = readChordSymbol(transposeSymbol(text, reading));
  if (!symbol) return null;
  const key = transposeKey(readKey(keyText) ?? readKey(road.key) ?? makeKey('C', 'major'), reading);
  const tones = tonesOf(symbol);
  return { symbol, key, tones, scale: tones };
};

const tonesOf = (symbol: ChordSymbol): number[] => {
  const tones = chordPitchClasses(symbol);
  const bass = symbol.bass === undefined ? [] : [pitchClassOf(symbol.bass)];
  return [...new Set([...bass, ...tones])];
};

const chordIn = ({ symbol, analysis }: HarmonyChord): Chord => {
  const tones = tonesOf(symbol);
  const scale = scaleChoices(symbol, analysis)[0]?.notes.map(pitchClassOf) ?? tones;
  return { symbol, key: analysis.key, tones, scale };
};

/** The change that sounds at a pulse of the bar. */
export const changeAt = (changes: readonly Change[], pulse: number): Change | null =>
  changes.findLast(({ atPulse }) => atPulse <= pulse + 1e-6) ?? null;
