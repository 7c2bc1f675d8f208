import type { HeardPass } from './heard-pass.ts';
import type { Finder, FoundSpot } from './lost-spot.ts';

const LEAST_BARS = 2;

/**
 * Phrases that begin alike and part later: first and second ending, the last A of AABA. Each later one is compared
 * with the earlier one that it follows longest, on into what comes after the pass.
 */
export const partingSpots: Finder = (pass) => {
  const starts = pass.phrases.map(({ from }) => from);
  const found: Likeness[] = [];
  for (const later of starts) {
    const [longest] = starts
      .filter((earlier) => earlier < later)
      .map((earlier): Likeness => ({ earlier, later, bars: barsAlike(pass, earlier, later) }))
      .sort((a, b) => b.bars - a.bars);
    if (longest && isTelling(pass, longest) && !found.some((other) => isPartOf(longest, other))) {
      found.push(longest);
    }
  }
  return found.map((likeness) => spotOf(pass, likeness));
};

/** So many bars from the one place sound like those from the other; infinitely many where the two never part. */
interface Likeness {
  readonly earlier: number;
  readonly later: number;
  readonly bars: number;
}

const barsAlike = (pass: HeardPass, earlier: number, later: number): number => {
  for (let bars = 0; bars < pass.bars.length; bars++) {
    const [one, other] = [soundAt(pass, earlier + bars), soundAt(pass, later + bars)];
    if (other === undefined || one !== other) return bars;
  }
  return Number.POSITIVE_INFINITY;
};

/** The bar at a place in the pass, or after it; undefined beyond the end of the road. */
const soundAt = ({ sounds, then }: HeardPass, bar: number): string | undefined =>
  sounds[bar] ?? then?.sounds[bar - sounds.length];

/**
 * Long enough to take one for the other: two bars, and two chords unless both begin a section. Where they never part
 * nobody is lost.
 */
const isTelling = ({ stretches, bars: all }: HeardPass, { earlier, later, bars }: Likeness): boolean => {
  if (!Number.isFinite(bars) || bars < LEAST_BARS) return false;
  const beginSections = [earlier, later].every((bar) => all[bar]?.content.letter !== undefined);
  return (
    beginSections || stretches.filter(({ from, to }) => to > earlier && from < earlier + bars).length > 1
  );
};

const isPartOf = (inner: Likeness, outer: Likeness): boolean =>
  inner.later - inner.earlier === outer.later - outer.earlier && inner.earlier <= outer.earlier + outer.bars;

const spotOf = (pass: HeardPass, { earlier, later, bars }: Likeness): FoundSpot => {
  const { length } = pass.bars;
  // What is alike beyond the end of the pass is the next pass: the way parts where the top comes instead of a bar.
  const alike = Math.min(bars, length - later);
  const [goesOn, parting] = [earlier + alike, later + alike];
  const again =
    alike === 1
      ? `bar ${parting} is ${goesOn} again`
      : `bars ${later + 1}–${parting} are ${earlier + 1}–${goesOn} again`;
  const like = `like ${alike === 1 ? '' : `${earlier + 1} to `}${goesOn}`;
  const top = pass.then === null ? 'the end' : pass.goesRound ? 'the top' : 'the next leg';
  const isAtTop = parting === length;
  const [here, there] = [barWords(pass, parting), barWords(pass, goesOn)];
  return {
    kind: 'partsLater',
    fromBar: later,
    toBar: Math.min(parting, length - 1),
    atBar: parting,
    weight: Math.min(70, 25 + 4 * alike),
    reason: isAtTop
      ? `${again}, but then comes ${top}, not bar ${goesOn + 1}`
      : `${again}, but bar ${parting + 1} has ${here}, not ${there}`,
    announce: `${like}, then ${isAtTop ? top : here}`,
  };
};

const barWords = ({ stretches }: HeardPass, bar: number): string =>
  stretches
    .filter(({ from, to }) => to > bar && from < bar + 1)
    .map(({ name }) => name)
    .join(' ');
