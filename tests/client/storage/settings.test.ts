import { describe, expect, it } from 'vitest';
import { openTabletSettings } from '../../../client/storage/settings.ts';
import { memoryStore } from '../../../client/storage/stored-json.ts';

const NAME = 'tillcue.settings';

describe('the settings of a tablet', () => {
  it('keep how the notes are called, for this tab and the next new one', () => {
    const ofTablet = memoryStore();
    const settings = openTabletSettings(ofTablet, memoryStore());
    expect(settings.get().noteNames).toBe('english');
    settings.change({ noteNames: 'german' });
    expect(settings.get().noteNames).toBe('german');
    expect(openTabletSettings(ofTablet, memoryStore()).get().noteNames).toBe('german');
  });

  it('are English where something else was kept', () => {
    const ofTablet = memoryStore();
    for (const kept of ['{"noteNames":"unknown"}', '{"noteNames":7}', '{', '{}', 'null']) {
      ofTablet.setItem(NAME, kept);
      expect(openTabletSettings(ofTablet, memoryStore()).get().noteNames).toBe('english');
    }
  });
});
