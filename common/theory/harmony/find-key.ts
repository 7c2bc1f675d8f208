import { type Key, makeKey } from '../key.ts';
import { noteAt, pitchClassAt, pitchClassOf } from '../pitch.ts';
import type { TimedSymbol } from './analyse.ts';
import { isBluesOn } from './blues-key.ts';
import type { ChordCore } from './chord-core.ts';
import { keyFrame } from './key-frame.ts';
import { type Progression, progressionOf, sensesIn } from './progression.ts';

/** What the first chord speaks for a key in which it is home, in bars that lie 1 away; the last one speaks as much. */
const AT_AN_END = 1.5;
/** The longer the music, the more there is between its ends to speak against them. */
const AT_AN_END_PER_BAR = 0.09;
/** What a cadence speaks. */
const CADENCE = 0.8;
/** No chord speaks more against a key: the music may have gone elsewhere. */
const MOST_AGAINST = 1;
/** Against a minor key for each bar: it has three scales and explains more than any other. */
const THREE_SCALES = 0.03;

/**
 * The key that explains a progression best, for a chart that names none: the one in which the chords lie nearest
 * in all, where it begins and ends, and to which dominants fall. Major, minor, or a blues where I and IV are mostly
 * dominant sevenths. `null` without chords.
 */
export function findKey(chords: readonly TimedSymbol[]): Key | null {
  const symbols = chords.map(({ symbol }) => symbol);
  const bars = chords.map((chord) => chord.bars);
  const length = bars.reduce((sum, each) => sum + each, 0);
  const progression = progressionOf(symbols);
  let best: { readonly key: Key; readonly cost: number } | null = null;
  for (let tonic = 0; tonic < 12 && chords.length > 0; tonic++) {
    for (const mode of modesOn(tonic, progression.cores, bars)) {
      const key = makeKey(tonicName(tonic, mode, symbols), mode);
      const cost = against(key, progression, bars) - speaksFor(tonic, mode, progression.cores, length);
      if (best === null || cost < best.cost) best = { key, cost };
    }
  }
  return best?.key ?? null;
}

type KeyMode = 'major' | 'minor' | 'blues';

const modesOn = (tonic: number, cores: readonly ChordCore[], bars: readonly number[]): readonly KeyMode[] =>
  isBluesOn(tonic, cores, bars) ? ['major', 'minor', 'blues'] : ['major', 'minor'];

/** How far the chords lie from the key in all, times their bars. */
function against(key: Key, progression: Progression, bars: readonly number[]): number {
  const lies = key.mode === 'minor' ? THREE_SCALES : 0;
  return sensesIn(keyFrame(key), progression).reduce(
    (total, { distance }, i) => total + (lies + Math.min(MOST_AGAINST, distance)) * (bars[i] ?? 0),
    0,
  );
}

function speaksFor(tonic: number, mode: KeyMode, cores: readonly ChordCore[], length: number): number {
  const home = mode === 'minor' ? 'minor' : 'major';
  const isHome = (chord: ChordCore | undefined): boolean =>
    chord?.root === tonic &&
    (chord.family === home || chord.family === 'power' || (mode === 'blues' && chord.family === 'dominant'));
  const isFifth = (chord: ChordCore | undefined): boolean =>
    chord?.family === 'dominant' && chord.root === (tonic + 7) % 12;
  const cadences = cores.filter((chord, i) => isHome(chord) && isFifth(cores[i - 1])).length;
  const ends = [cores[0], cores.at(-1)].filter(isHome).length;
  return ends * (AT_AN_END + AT_AN_END_PER_BAR * length) + CADENCE * cadences;
}

/** As the chart spells it where it is a root there, else the name with the fewest accidentals in its signature. */
function tonicName(tonic: number, mode: KeyMode, symbols: readonly TimedSymbol['symbol'][]): string {
  const written = symbols.find(({ root }) => pitchClassOf(root) === tonic);
  if (written) return written.root;
  const nearest = Array.from({ length: 12 }, (_, i) => i - 6 + (mode === 'minor' ? 3 : 0));
  return noteAt(nearest.find((fifths) => pitchClassAt(fifths) === tonic) ?? 0);
}
