import type { Leg, Road } from './road.ts';

/** Bars of one time through the form: of the leg that is left open, else of the longest one. */
export const formBars = ({ legs }: Road): number => {
  const open = legs.find(({ passes }) => passes === 'open');
  return open?.bars.length ?? Math.max(0, ...legs.map(({ bars }) => bars.length));
};

/** A pass of the leg is a whole chorus, as of heads and solos: no vamp, no tag, and no shorter than the form, as an intro is. */
export const isChorus = ({ passes, tag, bars }: Leg, road: Road): boolean =>
  passes !== 'vamp' && tag === undefined && bars.length >= formBars(road);
