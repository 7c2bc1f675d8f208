import type { Leg } from '../form/road.ts';
import type { Solo } from './manner.ts';

/** A leg in which people solo: an open one, or one that is called so. */
export const isSoloLeg = ({ passes, name }: Pick<Leg, 'passes' | 'name'>): boolean =>
  passes === 'open' || /\bsolos?\b/i.test(name);

/** Who solos; null while nobody does. */
export const soloistOf = (solo: Solo | null): string | null =>
  solo && solo.leg !== null ? (solo.order[solo.at] ?? null) : null;

/** Who solos next, if the order goes on. */
export const nextSoloistOf = ({ order, at, leg }: Solo): string | null =>
  order[leg === null ? at : at + 1] ?? null;

/** Nobody solos any more; whoever did has had the turn. */
export const soloOver = (solo: Solo): Solo =>
  solo.leg === null ? solo : { ...solo, at: solo.at + 1, leg: null };

/** The solo order where a bar of the leg begins: a solo ends with its leg, and the next begins in one for solos. */
export const soloIn = (solo: Solo, leg: Leg, isTraded: boolean): Solo => {
  if (solo.leg === leg.id) return solo;
  if (isTraded || !isSoloLeg(leg)) return soloOver(solo);
  return solo.leg !== null || solo.at < solo.order.length ? { ...solo, leg: leg.id } : solo;
};
