import { settable } from '../state/observable.ts';

/** Who was picked on this tablet to solo or trade, in order; keys and pedals go by it alike. */
export const pickedSoloists = settable<readonly string[]>([]);
