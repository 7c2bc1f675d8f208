import { usableStore } from './stored-json.ts';

/** Kept on this tablet, for all its tabs. */
export const tabletStore = usableStore(() => globalThis.localStorage);

/** Kept as long as this tab lives, reloads included. */
export const tabStore = usableStore(() => globalThis.sessionStorage);
