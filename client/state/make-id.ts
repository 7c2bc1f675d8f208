import { randomIds } from '../../common/ids.ts';

/** Ids for what is added on this tablet. `getRandomValues` works on plain http addresses too. */
export const makeId = randomIds((n) => crypto.getRandomValues(new Uint8Array(n)));
