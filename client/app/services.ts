import { createContext, useContext } from 'react';
import { type MakeId, randomIds } from '../../common/ids.ts';
import { type Ask, NOT_REACHED } from '../net/ask.ts';
import type { OpenBandSound } from '../state/band-sound.ts';
import { tabletStore, tabStore } from '../storage/browser-stores.ts';
import { type KnownBands, openKnownBands } from '../storage/known-bands.ts';
import type { TabletSettings } from '../storage/settings.ts';
import type { TextStore } from '../storage/stored-json.ts';
import { browserTabChannel, claimMember } from '../storage/tab-member.ts';
import { tabletProof } from '../storage/tablet-proof.ts';
import { tabletSettings } from '../storage/tablet-settings.ts';

/** What the pages need before a band is open. */
export interface Services {
  readonly origin: string;
  readonly ask: Ask;
  readonly settings: TabletSettings;
  readonly bands: KnownBands;
  /** Who this tab is: its own id, also where a tab was duplicated. */
  readonly member: Promise<string>;
  /** What shows the relay that this tablet is who it says. */
  readonly proof: string;
  readonly makeId: MakeId;
  /** Makes the practice band heard; loaded when it is first wanted. */
  readonly openSound: OpenBandSound;
  readonly tabletStore: TextStore;
  readonly tabStore: TextStore;
}

export const ServicesContext = createContext<Services | null>(null);

export const useServices = (): Services => {
  const services = useContext(ServicesContext);
  if (!services) throw new Error('no services here: the page must be drawn inside ServicesContext');
  return services;
};

// `crypto.randomUUID` is missing on http:// in a local network; this is not.
const makeId = randomIds((count) => crypto.getRandomValues(new Uint8Array(count)));

/** Asking over HTTP is loaded when something is first asked. */
const askLater: Ask = async (...question) => {
  try {
    const { askRelay } = await import('../net/ask-relay.ts');
    return await askRelay(window.location.origin)(...question);
  } catch (error) {
    console.info('What asks the relay did not come.', error);
    return NOT_REACHED;
  }
};

/** The services of a page in a browser. Called once. */
export const browserServices = (): Services => ({
  origin: window.location.origin,
  ask: askLater,
  settings: tabletSettings,
  bands: openKnownBands(tabletStore, tabStore),
  member: claimMember(tabletStore, tabStore, browserTabChannel(), makeId, (ms) => {
    return new Promise((done) => setTimeout(done, ms));
  }),
  proof: tabletProof(tabletStore, makeId),
  makeId,
  openSound: async (parts) => (await import('../sound/band-sound.ts')).openBandSound(parts),
  tabletStore,
  tabStore,
});
