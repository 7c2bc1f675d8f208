import { type Key, makeKey } from '../key.ts';
import { noteAt, pitchClassAt, pitchClassOf } from '../pitch.ts';
import type { TimedSymbol } from './analyse.ts';
import { isBluesOn } from './blues-key.ts';
import type { ChordCore } from './chord-core.ts';
import { keyFrame } from './key-frame.ts';
import { type Progression, progressionOf, sensesIn } from './progression.ts';

/** What the chord at the end, the chord at the beginning and a cadence speak for a key, in bars that lie 1 away. */
const LAST = 0.8;
const FIRST = 0.6;
const CADENCE = 0.5;
/** A chord that is held speaks against a key no longer than this: the music may have gone elsewhere. */
const MOST_AGAINST = 3;

/**
 * The key that explains a progression best, for a chart that names none: the one in which the chords lie nearest
 * in all, where it begins and ends, and to which dominants fall. Major, minor, or a blues where I and IV are mostly
 * dominant sevenths. `null` without chords.
 */
export function findKey(chords: readonly TimedSymbol[]): Key | null {
  const symbols = chords.map(({ symbol }) => symbol);
  const bars = chords.map((chord) => chord.bars);
  const progression = progressionOf(symbols);
  let best: { readonly key: Key; readonly cost: number } | null = null;
  for (let tonic = 0; tonic < 12 && chords.length > 0; tonic++) {
    for (const mode of modesOn(tonic, progression.cores, bars)) {
      const key = makeKey(tonicName(tonic, mode, symbols), mode);
      const cost = against(key, progression, bars) - speaksFor(tonic, mode, progression.cores);
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
  let total = 0;
  let run = 0;
  const { neighbours } = progression;
  sensesIn(keyFrame(key), progression).forEach(({ distance }, i) => {
    run += distance * (bars[i] ?? 0);
    if (neighbours[i]?.next === neighbours[i + 1]?.next && i + 1 < neighbours.length) return;
    total += Math.min(MOST_AGAINST, run);
    run = 0;
  });
  return total;
}

function speaksFor(tonic: number, mode: KeyMode, cores: readonly ChordCore[]): number {
  const families = mode === 'major' ? ['major'] : mode === 'minor' ? ['minor'] : ['dominant', 'major'];
  const isHome = (chord: ChordCore | undefined): boolean =>
    chord !== undefined && chord.root === tonic && families.includes(chord.family);
  const isFifth = (chord: ChordCore | undefined): boolean =>
    chord?.family === 'dominant' && chord.root === (tonic + 7) % 12;
  const cadences = cores.filter((chord, i) => isHome(chord) && isFifth(cores[i - 1])).length;
  return (isHome(cores.at(-1)) ? LAST : 0) + (isHome(cores[0]) ? FIRST : 0) + CADENCE * cadences;
}

/** As the chart spells it where it is a root there, else the name with the fewest accidentals in its signature. */
function tonicName(tonic: number, mode: KeyMode, symbols: readonly TimedSymbol['symbol'][]): string {
  const written = symbols.find(({ root }) => pitchClassOf(root) === tonic);
  if (written) return written.root;
  const nearest = Array.from({ length: 12 }, (_, i) => i - 6 + (mode === 'minor' ? 3 : 0));
  return noteAt(nearest.find((fifths) => pitchClassAt(fifths) === tonic) ?? 0);
}
