import type { ChordCore } from './chord-core.ts';

/**
 * I and IV are dominant sevenths for most of the time that they sound: a blues, whatever its form.
 * @param tonic pitch class
 */
export function isBluesOn(tonic: number, cores: readonly ChordCore[], bars: readonly number[]): boolean {
  const isMostlyDominant = (root: number): boolean => {
    let balance = 0;
    cores.forEach((chord, i) => {
      if (chord.root === root) balance += (chord.family === 'dominant' ? 1 : -1) * (bars[i] ?? 0);
    });
    return balance > 0;
  };
  return isMostlyDominant(tonic) && isMostlyDominant((tonic + 5) % 12);
}
