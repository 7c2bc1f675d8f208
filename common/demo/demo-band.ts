import { CRATE_OF_LEMONS } from './crate-of-lemons.ts';
import { FIVE_PAST_THE_LOCK } from './five-past-the-lock.ts';
import { LANTERN_BOAT } from './lantern-boat.ts';
import { LOW_WATER } from './low-water.ts';
import { NET_MENDERS } from './net-menders.ts';
import { ROPEWALK } from './ropewalk.ts';
import { SLOW_FERRY } from './slow-ferry.ts';
import { TUESDAY_FOG } from './tuesday-fog.ts';

export interface DemoBand {
  readonly name: string;
  /** `part` is an instrument's id. */
  readonly members: readonly { readonly id: string; readonly name: string; readonly part: string }[];
  /** Charts as text, each with the id that it has in the book. */
  readonly charts: readonly { readonly id: string; readonly text: string }[];
}

/** The band that a fresh start opens with, so that there is something to play. Invented, as are its tunes. */
export const DEMO_BAND: DemoBand = {
  name: 'Harbour Street Five',
  members: [
    { id: 'ines', name: 'Ines', part: 'guitar' },
    { id: 'tomas', name: 'Tomas', part: 'tenor-sax' },
    { id: 'bea', name: 'Bea', part: 'trumpet' },
    { id: 'wim', name: 'Wim', part: 'double-bass' },
    { id: 'odile', name: 'Odile', part: 'drums' },
  ],
  charts: [
    { id: 'slow-ferry', text: SLOW_FERRY },
    { id: 'ropewalk', text: ROPEWALK },
    { id: 'net-menders', text: NET_MENDERS },
    { id: 'five-past-the-lock', text: FIVE_PAST_THE_LOCK },
    { id: 'lantern-boat', text: LANTERN_BOAT },
    { id: 'crate-of-lemons', text: CRATE_OF_LEMONS },
    { id: 'low-water', text: LOW_WATER },
    { id: 'tuesday-fog', text: TUESDAY_FOG },
  ],
};
