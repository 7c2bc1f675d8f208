import { tabletStore, tabStore } from './browser-stores.ts';
import { type HelpSettingsStore, openHelpSettings } from './help-settings.ts';
import { openPinnedShapes, type PinnedShapes } from './pinned-shapes.ts';

/** What the player of this tab wants under the chords. */
export const tabletHelp: HelpSettingsStore = openHelpSettings(tabletStore, tabStore);

/** The shapes pinned on this tablet. */
export const pinnedShapes: PinnedShapes = openPinnedShapes(tabletStore);
