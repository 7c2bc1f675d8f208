import type { Road } from '../form/road.ts';
import type { Cue } from './cue.ts';
import type { Place } from './place.ts';

/** Where a cue lands of which nobody can say when: the bar that it names, else the end of the road. */
export const farPlace = ({ legs }: Road, cue: Cue): Place => {
  const named = cue.kind === 'hold' ? legs.find(({ id }) => id === cue.leg) : undefined;
  const leg = named ?? legs.at(-1);
  const last = (leg?.lastBars ?? leg?.bars ?? []).length - 1;
  const barIndex = named && cue.kind === 'hold' ? (cue.barIndex ?? last) : last;
  return { leg: leg?.id ?? '', pass: 1, barIndex, pulse: 0 };
};
