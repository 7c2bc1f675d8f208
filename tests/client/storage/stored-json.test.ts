import { describe, expect, it, vi } from 'vitest';
import { openTabletSettings } from '../../../client/storage/settings.ts';
import { memoryStore, readJson, usableStore, writeJson } from '../../../client/storage/stored-json.ts';
import { openUnsentList } from '../../../client/storage/unsent-list.ts';

describe('what a tablet keeps', () => {
  it('is read back as it was written, and as nothing where it is no JSON', () => {
    const store = memoryStore();
    expect(readJson(store, 'a')).toBeUndefined();
    expect(writeJson(store, 'a', { b: [1] })).toBe(true);
    expect(readJson(store, 'a')).toEqual({ b: [1] });
    store.setItem('a', '{"cut');
    expect(readJson(store, 'a')).toBeUndefined();
  });

  it('lasts as long as the page where the browser forbids keeping', () => {
    const warn = vi.spyOn(console, 'warn').mockImplementation(() => {});
    const store = usableStore(() => {
      throw new Error('SecurityError');
    });
    store.setItem('a', '1');
    expect(store.getItem('a')).toBe('1');
    expect(warn).toHaveBeenCalledOnce();
    warn.mockRestore();
  });
});

describe('the settings of a stand', () => {
  it('are each tab’s own; a new tab begins with the last change on the tablet', () => {
    const tablet = memoryStore();
    const firstTab = memoryStore();
    const secondTab = memoryStore();
    const first = openTabletSettings(tablet, firstTab);
    first.change({ name: 'Ines', part: 'piano' });
    const second = openTabletSettings(tablet, secondTab);
    expect(second.get().name).toBe('Ines');
    second.change({ name: 'Bea', part: 'tenor-sax', theme: 'paper' });
    expect(first.get().name).toBe('Ines');
    expect(openTabletSettings(tablet, firstTab).get()).toMatchObject({ name: 'Ines', theme: 'night' });
    expect(openTabletSettings(tablet, memoryStore()).get()).toMatchObject({ name: 'Bea', theme: 'paper' });
  });

  it('survive odd things in the store', () => {
    const tablet = memoryStore();
    writeJson(tablet, 'tillcue.settings', { name: 7, theme: 'pink', concert: 'yes' });
    expect(openTabletSettings(tablet, memoryStore()).get()).toMatchObject({
      name: '',
      theme: 'night',
      concert: false,
    });
  });
});

describe('the list of unsent documents', () => {
  it('outlives the page and is kept for each band', () => {
    const store = memoryStore();
    const list = openUnsentList(store, 'b1');
    list.set('chart.c1', true);
    list.set('chart.c1', true);
    list.set('book', true);
    list.set('book', false);
    expect(openUnsentList(store, 'b1').get()).toEqual(['chart.c1']);
    expect(openUnsentList(store, 'b2').get()).toEqual([]);
  });
});
