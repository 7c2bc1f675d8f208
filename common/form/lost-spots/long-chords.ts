import type { HeardPass, Stretch } from './heard-pass.ts';
import { barsWords, type Finder } from './lost-spot.ts';

/** A chord is long where it lasts more than a phrase and a half. */
const LONG_BARS = 6;

/** One chord for so long that nobody knows which of its bars it is. A vamp is meant to be that. */
export const longChordSpots: Finder = (pass) => {
  const { stretches, leg } = pass;
  if (leg.passes === 'vamp') return [];
  return stretches.flatMap((stretch, i) => {
    const { from, to, name } = stretch;
    const length = to - from;
    if (length < LONG_BARS || (stretches.length > 1 && isOverSeam(pass, stretch))) return [];
    const next = stretches[i + 1];
    const after = next ? `${next.name} in ${Math.floor(next.from) + 1}` : 'then the top';
    const fromBar = Math.floor(from);
    return [
      {
        kind: 'longChord' as const,
        fromBar,
        toBar: Math.ceil(to) - 1,
        atBar: next ? Math.floor(next.from) : Math.ceil(to) - 1,
        weight: Math.min(70, 20 + 5 * (length - 4)),
        reason: `${barsWords(length)} bars of ${name} from ${fromBar + 1}`,
        announce: `${barsWords(length)} bars of ${name}: ${after}`,
      },
    ];
  });
};

/** It goes on over the top, which is a spot of its own. */
const isOverSeam = ({ stretches, then, goesRound }: HeardPass, stretch: Stretch): boolean => {
  const [first, last] = [stretches[0], stretches.at(-1)];
  if (stretch === last && stretch.sound === then?.stretches[0]?.sound) return true;
  return goesRound && stretch === first && stretch.sound === last?.sound;
};
