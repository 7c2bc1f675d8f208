import type { MakeId } from '../../common/ids.ts';
import { readJson, type TextStore, writeJson } from './stored-json.ts';

/** A way for the tabs of one browser to hear each other. */
export interface TabChannel {
  readonly post: (message: unknown) => void;
  readonly listen: (heard: (message: unknown) => void) => void;
}

const NAME = 'tillcue.member';
/** How long another tab has for its answer; tabs of one browser answer within a few ms. */
const ANSWER_MS = 120;

interface Claim {
  readonly kind: 'claim' | 'taken';
  readonly member: string;
  readonly tab: string;
}

const isClaim = (value: unknown): value is Claim =>
  typeof value === 'object' && value !== null && 'kind' in value && 'member' in value && 'tab' in value;

/**
 * The member id of this tab. The first tab has the tablet's own id, so that a band knows a returning player;
 * every further tab is a stand of its own with its own id, also one made by duplicating a tab, which copies
 * what the tab had kept. While the page lives it answers other tabs that ask for its id.
 * @param wait resolves after so many ms
 */
export const claimMember = async (
  ofTablet: TextStore,
  ofTab: TextStore,
  channel: TabChannel,
  makeId: MakeId,
  wait: (ms: number) => Promise<void>,
): Promise<string> => {
  const tab = makeId();
  const taken = new Set<string>();
  let mine = '';
  let claiming = '';
  channel.listen((message) => {
    if (!isClaim(message) || message.tab === tab) return;
    if (message.kind === 'taken') taken.add(message.member);
    // Two tabs opened in the same moment: the one with the smaller name has it.
    else if (message.member === mine || (message.member === claiming && tab < message.tab)) {
      channel.post({ kind: 'taken', member: message.member, tab } satisfies Claim);
    }
  });
  const isFree = async (member: string): Promise<boolean> => {
    claiming = member;
    channel.post({ kind: 'claim', member, tab } satisfies Claim);
    await wait(ANSWER_MS);
    claiming = '';
    return !taken.has(member);
  };
  const keptId = (store: TextStore): string | null => {
    const kept = readJson(store, NAME);
    return typeof kept === 'string' && kept !== '' ? kept : null;
  };
  const choose = async (): Promise<string> => {
    const ofThisTab = keptId(ofTab);
    if (ofThisTab && (await isFree(ofThisTab))) return ofThisTab;
    const ofThisTablet = keptId(ofTablet);
    if (ofThisTablet && ofThisTablet !== ofThisTab && (await isFree(ofThisTablet))) return ofThisTablet;
    const fresh = makeId();
    if (!ofThisTablet) writeJson(ofTablet, NAME, fresh);
    return fresh;
  };
  mine = await choose();
  writeJson(ofTab, NAME, mine);
  return mine;
};

/** The browser's channel between its tabs; where it has none, a tab hears nobody. */
export const browserTabChannel = (): TabChannel => {
  if (typeof BroadcastChannel === 'undefined') return { post: () => {}, listen: () => {} };
  const channel = new BroadcastChannel('tillcue.tabs');
  return {
    post: (message) => channel.postMessage(message),
    listen: (heard) => channel.addEventListener('message', (event) => heard(event.data)),
  };
};
