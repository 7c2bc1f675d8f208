import { describe, expect, it } from 'vitest';
import { openKnownBands } from '../../../client/storage/known-bands.ts';
import { memoryStore, writeJson } from '../../../client/storage/stored-json.ts';

describe('the bands of a tablet', () => {
  it('are there again on the next day, with their keys', () => {
    const tablet = memoryStore();
    openKnownBands(tablet, memoryStore()).learn('b1', 'Harbour Street Five', 'player', 'k1');
    const again = openKnownBands(tablet, memoryStore());
    expect(again.get()).toEqual([{ band: 'b1', name: 'Harbour Street Five', keys: { player: 'k1' } }]);
    expect(again.keyFor('b1')).toEqual({ role: 'player', key: 'k1' });
    expect(again.keyFor('b2')).toBeNull();
  });

  it('are opened with the key this tab joined with, in a new tab with the strongest', () => {
    const tablet = memoryStore();
    const tab = memoryStore();
    const bands = openKnownBands(tablet, tab);
    bands.learn('b1', 'Five', 'leader', 'lead');
    bands.learn('b1', 'Five', 'player', 'play');
    expect(bands.keyFor('b1')).toEqual({ role: 'player', key: 'play' });
    expect(openKnownBands(tablet, tab).keyFor('b1')).toEqual({ role: 'player', key: 'play' });
    expect(openKnownBands(tablet, memoryStore()).keyFor('b1')).toEqual({ role: 'leader', key: 'lead' });
  });

  it('keep a renewed key, and go on with it where the old one was in use', () => {
    const bands = openKnownBands(memoryStore(), memoryStore());
    bands.learn('b1', 'Five', 'leader', 'lead');
    bands.keep('b1', 'Five', 'player', 'play');
    expect(bands.keyFor('b1')).toEqual({ role: 'leader', key: 'lead' });
    bands.keep('b1', '', 'leader', 'lead 2');
    expect(bands.keyFor('b1')).toEqual({ role: 'leader', key: 'lead 2' });
    expect(bands.get()[0]).toMatchObject({ name: 'Five', keys: { leader: 'lead 2', player: 'play' } });
  });

  it('go when they are forgotten', () => {
    const bands = openKnownBands(memoryStore(), memoryStore());
    bands.learn('b1', 'Five', 'player', 'play');
    bands.forget('b1');
    expect(bands.get()).toEqual([]);
    expect(bands.keyFor('b1')).toBeNull();
  });

  it('are read in spite of odd things in the store', () => {
    const tablet = memoryStore();
    writeJson(tablet, 'tillcue.bands', [
      null,
      3,
      { band: 7 },
      { band: 'b1', keys: { boss: 'x', reader: 'r' } },
    ]);
    expect(openKnownBands(tablet, memoryStore()).get()).toEqual([
      { band: 'b1', name: '', keys: { reader: 'r' } },
    ]);
  });
});
