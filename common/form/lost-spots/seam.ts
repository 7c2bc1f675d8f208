import type { HeardPass, Stretch } from './heard-pass.ts';
import { barsWords, type Finder, type FoundSpot } from './lost-spot.ts';

/** Another chord of no more than this before the top, in bars, does not keep people from losing it. */
const SHORT = 0.5;
const LEAST_BARS = 2;
/** With a chord between, fewer bars than these are a turnaround. */
const LEAST_WITH_CHORD_BETWEEN = 3;

/**
 * The same chord at the end of a pass and at the beginning of what follows: nobody hears the top go by. Also where only
 * a short chord stands between.
 */
export const seamSpots: Finder = (pass) => {
  const { stretches, then, bars, leg } = pass;
  const top = then?.stretches[0];
  const tail = top ? tailLike(top, stretches) : null;
  // A vamp is left on cue: nobody counts it.
  if (!top || !then || !tail || leg.passes === 'vamp' || isOneChord(pass)) return [];
  const before = bars.length - tail.stretch.from;
  const total = before + top.to;
  if (total < (tail.between ? LEAST_WITH_CHORD_BETWEEN : LEAST_BARS)) return [];
  const fromBar = Math.floor(tail.stretch.from);
  const sign =
    signIn(pass, fromBar) ?? (tail.between ? `listen for ${tail.between.name} in ${bars.length}` : null);
  const split = `${barsWords(before)} + ${barsWords(top.to)}`;
  const goal = pass.goesRound ? 'over the top' : 'into the next leg';
  const onlySign = tail.between ? `; only ${tail.between.name} stands between` : '';
  const spot: FoundSpot = {
    kind: 'seam',
    fromBar,
    toBar: Math.ceil(top.to) - 1,
    atBar: bars.length,
    weight: weightOf(total, sign !== null),
    reason: `${barsWords(total)} bars ${goal}: ${split} of ${top.name}${onlySign}`,
    announce: `same chord for ${barsWords(total)}: ${sign ?? `count ${split}`}`,
  };
  return [spot];
};

const isOneChord = ({ stretches }: HeardPass): boolean => stretches.length === 1;

/** The last stretch of the pass that sounds like the top, with what stands between if that is short. */
const tailLike = (
  top: Stretch,
  stretches: readonly Stretch[],
): { readonly stretch: Stretch; readonly between?: Stretch } | null => {
  const [before, last] = [stretches.at(-2), stretches.at(-1)];
  if (last === undefined) return null;
  if (last.sound === top.sound) return { stretch: last };
  const isShort = last.to - last.from <= SHORT;
  return isShort && before?.sound === top.sound ? { stretch: before, between: last } : null;
};

/** Something written in the last bars that tells the top. */
const signIn = ({ bars }: HeardPass, from: number): string | null => {
  for (let i = bars.length - 1; i >= from; i--) {
    const always = (bars[i]?.marks ?? []).filter(({ pass }) => pass === undefined);
    const kinds = always.map(({ mark }) => mark.kind);
    if (kinds.includes('fill')) return `listen for the fill in ${i + 1}`;
    if (kinds.includes('break')) return `the break in ${i + 1} tells`;
    if (kinds.includes('hits') || kinds.includes('kicks')) return `the hits in ${i + 1} tell`;
  }
  return null;
};

/** More bars hide the top better, most where they don't add up to fours. */
const weightOf = (total: number, isSigned: boolean): number =>
  Math.min(90, 30 + 10 * (total - LEAST_BARS) + (total > LEAST_BARS && total % 4 !== 0 ? 15 : 0)) -
  (isSigned ? 10 : 0);
