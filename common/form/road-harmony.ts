import type { BarMusic } from '../chart/bar-music.ts';
import { type ChordSymbol, readChordSymbol } from '../theory/chord-symbol.ts';
import type { TimedSymbol } from '../theory/harmony/analyse.ts';
import { findKey } from '../theory/harmony/find-key.ts';
import { type Key, makeKey, readKey } from '../theory/key.ts';
import type { NoteNames } from '../theory/note-name.ts';
import { CONCERT, type Reading, transposeKey, transposeSymbol } from '../theory/transpose.ts';
import {
  chordsOfBar,
  type HarmonyChord,
  type PassHarmony,
  type PlacedChord,
  passHarmony,
} from './pass-harmony.ts';
import type { Leg, Road, RoadBar } from './road.ts';

/** The harmony of a leg: of its passes, and of the last one where it has other bars. */
export interface LegHarmony {
  readonly leg: string;
  readonly pass: PassHarmony;
  readonly lastPass?: PassHarmony;
}

/** So many chords after the end of a pass are enough to know where its last ones lead. */
const LOOK_AHEAD = 6;

/**
 * What every chord of a road does, leg by leg, as the reader of a part reads it. The last chord of a leg that goes
 * round leads to its top, else to the next leg. Where no key is written it is found from the chords.
 * @param reading the part's reading, with what the evening adds; concert where none is given
 * @param music what the bars mean now, by id, where the chart was corrected since the road was made
 * @param names how whoever reads the reasons calls notes
 */
export const roadHarmony = (
  road: Road,
  reading: Reading = CONCERT,
  music: ReadonlyMap<string, BarMusic> = new Map(),
  names: NoteNames = 'english',
): LegHarmony[] => {
  const musicOf = (bar: RoadBar): BarMusic => music.get(bar.id) ?? bar.content.music;
  const read = (symbol: string): ChordSymbol | null => readChordSymbol(transposeSymbol(symbol, reading));
  const found = keyFinder(road, musicOf);
  const keyOf = (text: string): Key => transposeKey(readKey(text) ?? readKey(road.key) ?? found(), reading);
  const keys = new Map<string, Key>();
  const place = (bars: readonly RoadBar[]): PlacedChord[] =>
    bars.flatMap((bar, barIndex) => {
      const meaning = musicOf(bar);
      const key = keys.get(meaning.key) ?? keyOf(meaning.key);
      keys.set(meaning.key, key);
      const barId = bar.id;
      return chordsOfBar(meaning, read).map(({ cell, symbol, bars: length }) => ({
        barIndex,
        barId,
        cell,
        symbol,
        bars: length,
        key,
      }));
    });
  const known = new Map<string, PassHarmony>();
  const harmonyOf = (bars: readonly RoadBar[], after: readonly RoadBar[]): PassHarmony => {
    const then = after.slice(0, LOOK_AHEAD);
    const name = JSON.stringify([bars.map(({ id }) => id), then.map(({ id }) => id)]);
    const harmony =
      known.get(name) ?? passHarmony(place(bars), place(then).slice(0, LOOK_AHEAD), bars.length, names);
    known.set(name, harmony);
    return harmony;
  };
  return road.legs.map((leg, index): LegHarmony => {
    const next = road.legs[index + 1]?.bars ?? [];
    const pass = harmonyOf(leg.bars, goesRound(leg) ? leg.bars : next);
    return { leg: leg.id, pass, ...(leg.lastBars ? { lastPass: harmonyOf(leg.lastBars, next) } : {}) };
  });
};

/** Whether a leg is followed by itself. */
export const goesRound = ({ passes }: Leg): boolean => passes !== 1;

/** The key of all chords that are played, looked for when first asked. */
const keyFinder = (road: Road, musicOf: (bar: RoadBar) => BarMusic): (() => Key) => {
  let key: Key | undefined;
  return () => {
    const seen = new Set<string>();
    const chords = road.legs.flatMap(({ bars, lastBars = [] }): TimedSymbol[] =>
      [...bars, ...lastBars].flatMap((bar) => {
        if (seen.has(bar.id)) return [];
        seen.add(bar.id);
        return chordsOfBar(musicOf(bar), readChordSymbol);
      }),
    );
    key ??= findKey(chords) ?? makeKey('C', 'major');
    return key;
  };
};

/**
 * The harmony by written bar: for each bar its chords as they are heard where the bar is first played. For pages
 * that show the chart as it is written.
 */
export const harmonyByBar = (legs: readonly LegHarmony[]): ReadonlyMap<string, readonly HarmonyChord[]> => {
  const byBar = new Map<string, HarmonyChord[]>();
  for (const { pass, lastPass } of legs) {
    for (const harmony of [pass, ...(lastPass ? [lastPass] : [])]) {
      const fresh = new Map<string, HarmonyChord[]>();
      for (const chord of harmony.chords) {
        if (byBar.has(chord.barId)) continue;
        const chords = fresh.get(chord.barId) ?? [];
        if (chords.every((other) => other.barIndex === chord.barIndex)) chords.push(chord);
        fresh.set(chord.barId, chords);
      }
      for (const [bar, chords] of fresh) byBar.set(bar, chords);
    }
  }
  return byBar;
};
