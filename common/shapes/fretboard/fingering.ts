import type { Barre, Finger } from './fret-shape.ts';
import { fretMm, reachMm } from './hand.ts';

export interface Fingering {
  readonly fingers: readonly (Finger | null)[];
  readonly barres: readonly Barre[];
  readonly handFret: number;
}

/** Strings of one fret that one finger presses. */
interface Press {
  readonly fret: number;
  readonly from: number;
  readonly to: number;
}

/** Frets by string: −1 muted, 0 open, else pressed. */
export type Frets = ArrayLike<number>;

/** A barre costs as much as four frets of fingers out of their place; those other than the index finger's more. */
const BARRE_COST = 4;
const SMALL_BARRE_COST = 5;
/** A finger other than the index finger lies flat over so many strings. */
const SMALL_BARRE_STRINGS = 4;
const FINGERS: readonly Finger[] = [1, 2, 3, 4];

/** Which fingers press, by how many press: `CHOICES[2]` is 1 2, 1 3, … 3 4. */
const CHOICES: readonly (readonly (readonly Finger[])[])[] = FINGERS.reduce<(readonly Finger[])[][]>(
  (sets, finger) => sets.map((of, size) => [...of, ...(sets[size - 1] ?? []).map((set) => [...set, finger])]),
  [[[]], [], [], [], []],
).map((sets) => [...sets].sort((a, b) => Number(a.join('')) - Number(b.join(''))));

/**
 * Which finger presses which string, `null` where no hand can (SHAPE-4 to SHAPE-7): fingers go up the neck in
 * their order, on one fret from the lowest string to the highest; neighbouring strings of a fret may lie under
 * one finger, with strings between that others press higher up; any two fingers are within reach of each other.
 * Of all that a hand can do it is what strays least from one finger a fret, with few barres.
 * @example fingeringOf([-1, 3, 2, 0, 1, 0], 650)?.fingers // [null, 3, 2, null, 1, null]
 */
export function fingeringOf(frets: Frets, scaleLengthMm: number): Fingering | null {
  const levels = levelsOf(frets);
  let best: { readonly presses: readonly Press[]; readonly hand: Hand } | null = null;
  for (const presses of pressesOf(levels, frets)) {
    const hand = handOn(presses, scaleLengthMm);
    if (hand !== null && (best === null || hand.cost < best.hand.cost)) best = { presses, hand };
  }
  if (best === null) return null;
  const fingers: (Finger | null)[] = Array.from({ length: frets.length }, () => null);
  const barres: Barre[] = [];
  best.presses.forEach(({ fret, from, to }, i) => {
    const finger = best.hand.fingers[i] as Finger;
    for (let string = from; string <= to; string++) if (frets[string] === fret) fingers[string] = finger;
    if (to > from) barres.push({ finger, fret, fromString: from, toString: to });
  });
  return { fingers, barres, handFret: best.hand.handFret };
}

/** The strings of each fret that is pressed, lowest fret first. */
function levelsOf(frets: Frets): { readonly fret: number; readonly strings: readonly number[] }[] {
  const levels: { fret: number; strings: number[] }[] = [];
  for (let string = 0; string < frets.length; string++) {
    const fret = frets[string] as number;
    if (fret <= 0) continue;
    const level = levels.find((one) => one.fret === fret);
    if (level === undefined) levels.push({ fret, strings: [string] });
    else level.strings.push(string);
  }
  return levels.sort((a, b) => a.fret - b.fret);
}

/** All ways to press the strings with at most four fingers, in the order of the fingers. */
function pressesOf(
  levels: readonly { readonly fret: number; readonly strings: readonly number[] }[],
  frets: Frets,
): readonly (readonly Press[])[] {
  let ways: readonly (readonly Press[])[] = [[]];
  for (const { fret, strings } of levels) {
    const splits = splitsOf(fret, strings, frets);
    ways = ways.flatMap((way) =>
      splits.filter((split) => way.length + split.length <= 4).map((split) => [...way, ...split]),
    );
  }
  return ways;
}

/** The ways to divide the strings of a fret among fingers: each takes one, or a run it can lie over. */
function splitsOf(fret: number, strings: readonly number[], frets: Frets): readonly (readonly Press[])[] {
  const [first] = strings;
  if (first === undefined) return [[]];
  const splits: (readonly Press[])[] = [];
  for (let count = 1; count <= strings.length; count++) {
    const to = strings[count - 1] as number;
    if (count > 1 && !canLieOver(fret, first, to, frets)) break;
    for (const rest of splitsOf(fret, strings.slice(count), frets))
      splits.push([{ fret, from: first, to }, ...rest]);
  }
  return splits;
}

/** No string in the run is open or pressed lower; one that is silent is touched by a finger higher up. */
function canLieOver(fret: number, from: number, to: number, frets: Frets): boolean {
  for (let string = from + 1; string < to; string++) {
    const here = frets[string] as number;
    if (here >= fret) continue;
    const higher = (frets[string - 1] as number) > fret || (frets[string + 1] as number) > fret;
    if (here !== -1 || !higher) return false;
  }
  return true;
}

interface Hand {
  readonly fingers: readonly Finger[];
  readonly handFret: number;
  readonly cost: number;
}

/** The fingers for the presses, and where the hand then stands; `null` where they are out of reach. */
function handOn(presses: readonly Press[], scaleLengthMm: number): Hand | null {
  let best: Hand | null = null;
  for (const fingers of CHOICES[presses.length] ?? []) {
    if (!isInReach(presses, fingers, scaleLengthMm)) continue;
    const barres = presses.reduce((sum, { from, to }, i) => sum + barreCost(to - from + 1, fingers[i]), 0);
    const lowest = presses[0]?.fret ?? 0;
    for (let handFret = lowest; handFret >= Math.max(lowest - 3, Math.min(lowest, 1)); handFret--) {
      const strayed = presses.reduce(
        (sum, { fret }, i) => sum + Math.abs(fret - handFret - (fingers[i] as number) + 1),
        0,
      );
      if (best === null || strayed + barres < best.cost) best = { fingers, handFret, cost: strayed + barres };
    }
  }
  return best;
}

const barreCost = (strings: number, finger: Finger | undefined): number => {
  if (strings === 1) return 0;
  if (finger === 1) return BARRE_COST;
  return strings > SMALL_BARRE_STRINGS ? Number.POSITIVE_INFINITY : SMALL_BARRE_COST;
};

function isInReach(presses: readonly Press[], fingers: readonly Finger[], scaleLengthMm: number): boolean {
  return presses.every((high, i) =>
    presses.slice(0, i).every((low, k) => {
      const mm = fretMm(high.fret, scaleLengthMm) - fretMm(low.fret, scaleLengthMm);
      return mm <= reachMm((fingers[i] as number) - (fingers[k] as number));
    }),
  );
}
