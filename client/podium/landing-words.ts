import type { ComingBar } from '../../common/stage/place.ts';

/** Where the next phrase and the next pass begin, seen from the bar being played. */
export interface Landings {
  /** "bar 9, in 3 bars". */
  readonly phrase: string;
  /** "top, in 11 bars", "Head out, in 4 bars". */
  readonly chorus: string;
}

const inBars = (n: number): string => (n === 1 ? 'next bar' : `in ${n} bars`);

/**
 * @param bars the bar being played (index `now`) and those that follow, as `barsAround` gives them
 * @param asked how many were asked for: fewer are the end; after so many nobody has looked, as in a loop
 */
export const landingWords = (bars: readonly ComingBar[], now: number, asked: number): Landings => {
  const playing = bars[Math.max(0, now)];
  const at = Math.max(0, now);
  const after = (
    ends: (bar: ComingBar, next: ComingBar | undefined) => boolean,
  ): [number, ComingBar | undefined] => {
    for (let k = at; k < bars.length; k++) {
      const bar = bars[k];
      if (bar !== undefined && ends(bar, bars[k + 1])) return [k - at + 1, bars[k + 1]];
    }
    return [0, undefined];
  };
  const isCut = bars.length - now > asked;
  const passEnds = (bar: ComingBar, next: ComingBar | undefined) =>
    next === undefined ? !isCut : next.place.leg !== bar.place.leg || next.place.pass !== bar.place.pass;
  const [toPhrase, phraseBar] = after((bar, next) => bar.bar.phraseEnd || passEnds(bar, next));
  const [toPass, passBar] = after(passEnds);
  const named = (bar: ComingBar | undefined): string => {
    if (bar === undefined) return 'the end';
    if (bar.place.leg !== playing?.place.leg) return bar.leg.name;
    return bar.place.barIndex === 0 ? 'top' : `bar ${bar.place.barIndex + 1}`;
  };
  const words = (bar: ComingBar | undefined, n: number) => (n === 0 ? '' : `${named(bar)}, ${inBars(n)}`);
  return { phrase: words(phraseBar, toPhrase), chorus: words(passBar, toPass) };
};
