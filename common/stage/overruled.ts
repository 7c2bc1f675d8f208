import type { Cue } from './cue.ts';

/**
 * By which cues that land at the same line, called later, nothing of a cue is left. One more and next soloist add to
 * what was called before; so one more after the last chorus leaves both, and the last chorus after one more only itself.
 */
const OVERRULED_BY: { readonly [Kind in Cue['kind']]?: readonly Cue['kind'][] } = {
  oneMore: ['lastChorus', 'goOn'],
  goTo: ['goTo', 'loop'],
  loop: ['goTo', 'loop'],
  tempo: ['tempo'],
  feel: ['feel'],
  dynamic: ['dynamic'],
  break: ['break'],
  stopTime: ['stopTimeOff'],
  stopTimeOff: ['stopTime'],
  trade: ['trade', 'nextSoloist'],
  tag: ['tag'],
  adopt: ['adopt'],
};

const PASS_COUNTS: readonly Cue['kind'][] = ['lastChorus', 'oneMore', 'goOn'];

/** Where the band is taken out of the leg, nobody counts its passes. */
const leaves = (cue: Cue, leg: string | undefined): boolean =>
  (cue.kind === 'goTo' || cue.kind === 'loop') && leg !== undefined && cue.leg !== leg;

/**
 * True where of two cues at one line nothing of the first is left by the second, in the order in which they land.
 * @param leg id of the leg before the line; undefined where it is not known
 * @example isOverruled({ kind: 'oneMore' }, { kind: 'lastChorus' }, 'Head') // true
 */
export const isOverruled = (first: Cue, second: Cue, leg?: string): boolean =>
  OVERRULED_BY[first.kind]?.includes(second.kind) === true ||
  (PASS_COUNTS.includes(first.kind) && leaves(second, leg));
