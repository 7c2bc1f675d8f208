import type { Barre, Finger } from './fret-shape.ts';
import { reachMm } from './hand.ts';

export interface Fingering {
  readonly fingers: readonly (Finger | null)[];
  readonly barres: readonly Barre[];
  readonly handFret: number;
}

/** Frets by string: −1 muted, 0 open, else pressed. */
export type Frets = readonly number[];

/** One finger on the strings of a fret. */
interface Press {
  readonly fret: number;
  readonly from: number;
  readonly to: number;
}

/** The fingers for presses from the lowest fret up, and the fret over which the index finger then stands. */
interface Hand {
  readonly presses: readonly Press[];
  readonly fingers: readonly Finger[];
  readonly handFret: number;
  readonly cost: number;
}

/** A barre costs as much as four frets by which fingers stray from their place, one of another finger six. */
const BARRE_COST = 4;
const SMALL_BARRE_COST = 6;
/** A finger other than the index finger lies over so many strings. */
const SMALL_BARRE_STRINGS = 4;

/** Which fingers press, by how many: those that come first are preferred. */
const CHOICES: readonly (readonly (readonly Finger[])[])[] = [
  [[]],
  [[1], [2], [3], [4]],
  [
    [1, 2],
    [1, 3],
    [1, 4],
    [2, 3],
    [2, 4],
    [3, 4],
  ],
  [
    [1, 2, 3],
    [1, 2, 4],
    [1, 3, 4],
    [2, 3, 4],
  ],
  [[1, 2, 3, 4]],
];

/**
 * Which finger presses which string, `null` where no hand can (SHAPE-5 to SHAPE-7). Of all that a hand can do it is
 * what strays least from one finger a fret, with few barres.
 * @param mm by fret, how far it lies from the nut
 * @example fingeringOf([-1, 3, 2, 0, 1, 0], mmOfGuitar)?.fingers // [null, 3, 2, null, 1, null]
 */
export function fingeringOf(frets: Frets, mm: readonly number[]): Fingering | null {
  const pressed = pressedStrings(frets);
  let best: Hand | null = null;
  const presses: Press[] = [];
  const press = (done: number): void => {
    if (done === pressed.length) {
      best = handOn(presses, mm, best);
      return;
    }
    if (presses.length === 4) return;
    const from = pressed[done] as number;
    const fret = frets[from] as number;
    for (let end = done; end < pressed.length; end++) {
      const to = pressed[end] as number;
      if (frets[to] !== fret || (end > done && !canLieOver(fret, from, to, frets))) break;
      presses.push({ fret, from, to });
      press(end + 1);
      presses.pop();
    }
  };
  press(0);
  return best === null ? null : written(best, frets);
}

/** Strings that are pressed, in the order of the fingers: by fret, on one fret from the lowest string up. */
function pressedStrings(frets: Frets): readonly number[] {
  const pressed: number[] = [];
  for (let string = 0; string < frets.length; string++) {
    const fret = frets[string] as number;
    if (fret <= 0) continue;
    let place = pressed.length;
    pressed.push(string);
    for (; place > 0 && (frets[pressed[place - 1] as number] as number) > fret; place--)
      pressed[place] = pressed[place - 1] as number;
    pressed[place] = string;
  }
  return pressed;
}

/** No string in the run is open or pressed lower; one that is silent is touched by a finger higher up. */
function canLieOver(fret: number, from: number, to: number, frets: Frets): boolean {
  for (let string = from + 1; string < to; string++) {
    const here = frets[string] as number;
    if (here >= fret) continue;
    const isTouched = (frets[string - 1] as number) > fret || (frets[string + 1] as number) > fret;
    if (here !== -1 || !isTouched) return false;
  }
  return true;
}

/** The best fingers for these presses where they are better than `best`, else `best`. */
function handOn(presses: readonly Press[], mm: readonly number[], best: Hand | null): Hand | null {
  let found = best;
  const lowest = presses[0]?.fret ?? 0;
  for (const fingers of CHOICES[presses.length] ?? []) {
    const barres = barresCost(presses, fingers);
    if (barres >= (found?.cost ?? Number.POSITIVE_INFINITY) || !isInReach(presses, fingers, mm)) continue;
    for (let handFret = lowest; handFret >= Math.max(lowest - 3, Math.min(lowest, 1)); handFret--) {
      let cost = barres;
      for (let i = 0; i < presses.length; i++)
        cost += Math.abs((presses[i] as Press).fret - handFret - (fingers[i] as number) + 1);
      if (found === null || cost < found.cost) found = { presses: [...presses], fingers, handFret, cost };
    }
  }
  return found;
}

function barresCost(presses: readonly Press[], fingers: readonly Finger[]): number {
  let cost = 0;
  for (let i = 0; i < presses.length; i++) {
    const { from, to } = presses[i] as Press;
    if (from === to) continue;
    if (fingers[i] === 1) cost += BARRE_COST;
    else cost += to - from < SMALL_BARRE_STRINGS ? SMALL_BARRE_COST : Number.POSITIVE_INFINITY;
  }
  return cost;
}

function isInReach(presses: readonly Press[], fingers: readonly Finger[], mm: readonly number[]): boolean {
  for (let high = 1; high < presses.length; high++) {
    for (let low = 0; low < high; low++) {
      const apart =
        (mm[(presses[high] as Press).fret] as number) - (mm[(presses[low] as Press).fret] as number);
      if (apart > reachMm((fingers[high] as number) - (fingers[low] as number))) return false;
    }
  }
  return true;
}

function written({ presses, fingers: hand, handFret }: Hand, frets: Frets): Fingering {
  const [first] = presses;
  const fingers: (Finger | null)[] = frets.map(() => null);
  const barres: Barre[] = [];
  presses.forEach(({ fret, from, to }, i) => {
    const finger = hand[i] as Finger;
    for (let string = from; string <= to; string++) if (frets[string] === fret) fingers[string] = finger;
    if (to > from) barres.push({ finger, fret, firstString: from, lastString: to });
  });
  return { fingers, barres, handFret: first !== undefined && hand[0] === 1 ? first.fret : handFret };
}
