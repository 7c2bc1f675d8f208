import { tabletStore, tabStore } from './browser-stores.ts';
import { openTabletSettings, type TabletSettings } from './settings.ts';

/** The settings of this tab. */
export const tabletSettings: TabletSettings = openTabletSettings(tabletStore, tabStore);
