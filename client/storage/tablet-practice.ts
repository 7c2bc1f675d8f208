import { tabletStore } from './browser-stores.ts';
import { openPracticeSettings, type PracticeSettingsStore } from './practice-settings.ts';

/** The practice band of this tablet. */
export const tabletPractice: PracticeSettingsStore = openPracticeSettings(tabletStore);
