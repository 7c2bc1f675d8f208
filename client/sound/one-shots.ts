import type { Voice } from '../../common/band/note-event.ts';

/** A sound rendered once. A note is played from the nearest one, faster or slower. */
export interface OneShot {
  readonly midi: number;
  readonly samples: Float32Array;
  readonly sampleRate: number;
}

export type OneShots = Readonly<Record<Voice, readonly OneShot[]>>;

/** The sound to play for a note, and how fast; percussion has a sound for each key and is never bent. */
export const shotFor = (
  shots: OneShots,
  voice: Voice,
  midi: number,
): { readonly shot: OneShot; readonly rate: number } | null => {
  const [first, ...others] = shots[voice];
  if (!first) return null;
  const shot = others.reduce(
    (best, one) => (Math.abs(one.midi - midi) < Math.abs(best.midi - midi) ? one : best),
    first,
  );
  const isPitched = voice === 'bass' || voice === 'comping';
  return { shot, rate: isPitched ? 2 ** ((midi - shot.midi) / 12) : 1 };
};
