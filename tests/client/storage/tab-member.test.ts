import { describe, expect, it } from 'vitest';
import { memoryStore, type TextStore } from '../../../client/storage/stored-json.ts';
import { claimMember, type TabChannel } from '../../../client/storage/tab-member.ts';
import { countingIds } from '../../../common/ids.ts';

/** The tabs of one browser: what one posts, the others hear a little later. */
const browser = () => {
  const tabs: ((message: unknown) => void)[] = [];
  const makeId = countingIds('m');
  const channel = (): TabChannel & { close: () => void } => {
    let mine: ((message: unknown) => void) | undefined;
    return {
      post: (message) => {
        const from = mine;
        for (const tab of [...tabs]) if (tab !== from) setTimeout(() => tab(message), 1);
      },
      listen: (heard) => {
        mine = heard;
        tabs.push(heard);
      },
      close: () => {
        if (mine) tabs.splice(tabs.indexOf(mine), 1);
      },
    };
  };
  const tablet = memoryStore();
  const open = (tab: TextStore) => {
    const line = channel();
    const member = claimMember(tablet, tab, line, makeId, () => new Promise((done) => setTimeout(done, 15)));
    return { member, close: line.close };
  };
  return { open };
};

const copyOf = (store: TextStore): TextStore => {
  const copy = memoryStore();
  const kept = store.getItem('tillcue.member');
  if (kept !== null) copy.setItem('tillcue.member', kept);
  return copy;
};

describe('who a tab is', () => {
  it('the first tab has the tablet’s own id, after a reload and on another day as well', async () => {
    const { open } = browser();
    const tab = memoryStore();
    const first = open(tab);
    const id = await first.member;
    first.close();
    const reloaded = open(tab);
    expect(await reloaded.member).toBe(id);
    reloaded.close();
    expect(await open(memoryStore()).member).toBe(id);
  });

  it('a second tab is a stand of its own, also after a reload', async () => {
    const { open } = browser();
    const first = await open(memoryStore()).member;
    const tab = memoryStore();
    const second = open(tab);
    const id = await second.member;
    expect(id).not.toBe(first);
    second.close();
    expect(await open(tab).member).toBe(id);
  });

  it('a duplicated tab, which copies what the tab had kept, gets its own id', async () => {
    const { open } = browser();
    const tab = memoryStore();
    const first = await open(tab).member;
    expect(await open(copyOf(tab)).member).not.toBe(first);
  });

  it('a tab keeps its id after a reload, though a duplicate of it once asked for that id', async () => {
    const { open } = browser();
    const tab = memoryStore();
    const first = open(tab);
    const id = await first.member;
    await open(copyOf(tab)).member;
    first.close();
    expect(await open(tab).member).toBe(id);
  });

  it('three tabs opened in the same moment are three stands', async () => {
    const { open } = browser();
    const one = memoryStore();
    const first = open(one);
    await first.member;
    first.close();
    const ids = await Promise.all([copyOf(one), copyOf(one), copyOf(one)].map((tab) => open(tab).member));
    expect(new Set(ids).size).toBe(3);
  });
});
