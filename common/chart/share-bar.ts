import type { Metre } from './bar-music.ts';
import type { TimeToken } from './bar-text.ts';

/** A token and its time in the bar, in pulses from 0. A token without a place has `fromPulse` = `toPulse`. */
export interface PlacedToken {
  readonly token: TimeToken;
  readonly fromPulse: number;
  readonly toPulse: number;
}

export interface SharedBar {
  readonly placed: readonly PlacedToken[];
  /** 'exact', or what is wrong with the number of tokens. */
  readonly fit: 'exact' | 'tooFew' | 'tooMany' | 'uneven';
}

/** A bar with a slash, or with `r` beside others, is counted: each token one pulse. */
export const isCounted = (tokens: readonly TimeToken[]): boolean =>
  tokens.some(({ kind }) => kind === 'slash') ||
  (tokens.length > 1 && tokens.some(({ kind }) => kind === 'rest'));

/** Pulses of the tokens where each is counted. */
export const countedPulses = (tokens: readonly TimeToken[]): number =>
  tokens.reduce((pulses, token) => pulses + tokenPulses(token), 0);

const tokenPulses = (token: TimeToken): number => (token.kind === 'slash' ? token.pulses : 1);

/**
 * Counts the tokens off, one pulse each. Where they are too few the last goes on; what is too much has no place.
 */
export const countOff = (tokens: readonly TimeToken[], pulses: number): SharedBar => {
  let at = 0;
  const placed = tokens.map((token, index): PlacedToken => {
    const fromPulse = Math.min(at, pulses);
    at += tokenPulses(token);
    const isLast = index === tokens.length - 1;
    return { token, fromPulse, toPulse: isLast ? pulses : Math.min(at, pulses) };
  });
  return { placed, fit: at < pulses ? 'tooFew' : at > pulses ? 'tooMany' : 'exact' };
};

/**
 * Shares the bar among its chords: one to a group where there are as many as groups, else equally in whole
 * pulses, or so many to each pulse (eight in 4/4). Where neither goes the earlier take the pulses left over
 * (three in 4/4: 2 + 1 + 1); more chords than pulses have no place.
 */
export const shareOut = (tokens: readonly TimeToken[], metre: Metre): SharedBar => {
  const { pulses, groups } = metre;
  const chords = tokens.length;
  if (groups.length > 1 && groups.length === chords) return lay(tokens, groups, 'exact');
  if (pulses % chords === 0 || chords % pulses === 0) {
    return lay(
      tokens,
      tokens.map(() => pulses / chords),
      'exact',
    );
  }
  if (chords > pulses) return countOff(tokens, pulses);
  const least = Math.floor(pulses / chords);
  const leftOver = pulses % chords;
  return lay(
    tokens,
    tokens.map((_, index) => (index < leftOver ? least + 1 : least)),
    'uneven',
  );
};

const lay = (tokens: readonly TimeToken[], lengths: readonly number[], fit: SharedBar['fit']): SharedBar => {
  const total = lengths.reduce((sum, length) => sum + length, 0);
  const equal = lengths.every((length) => length === lengths[0]);
  // Multiplied rather than added up, so that thirds and the like end exactly on the pulse.
  const edge = (index: number) =>
    equal
      ? (index * total) / lengths.length
      : lengths.slice(0, index).reduce((sum, length) => sum + length, 0);
  return {
    placed: tokens.map((token, index) => ({ token, fromPulse: edge(index), toPulse: edge(index + 1) })),
    fit,
  };
};

/** Each token on its count: kicks and hits with as many chords as counts. @param starts rising, in pulses */
export const layOnCounts = (
  tokens: readonly TimeToken[],
  starts: readonly number[],
  pulses: number,
): SharedBar => ({
  placed: tokens.map((token, index) => ({
    token,
    fromPulse: starts[index] ?? pulses,
    toPulse: starts[index + 1] ?? pulses,
  })),
  fit: 'exact',
});
