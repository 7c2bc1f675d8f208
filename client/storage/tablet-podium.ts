import { tabletStore } from './browser-stores.ts';
import { openPodiumSettings, type PodiumSettingsStore } from './podium-settings.ts';

/** The podium settings of this tablet. */
export const podiumSettings: PodiumSettingsStore = openPodiumSettings(tabletStore);
