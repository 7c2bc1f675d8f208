import { tabletStore } from './browser-stores.ts';
import { type DrillResultsStore, openDrillResults } from './drill-results.ts';

/** The drills of this tablet. */
export const tabletDrills: DrillResultsStore = openDrillResults(tabletStore);
