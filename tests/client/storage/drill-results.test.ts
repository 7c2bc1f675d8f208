import { describe, expect, it } from 'vitest';
import { openDrillResults } from '../../../client/storage/drill-results.ts';
import { memoryStore } from '../../../client/storage/stored-json.ts';

const NAME = 'tillcue.drills';
const DAY = { day: '2026-11-28', drill: 'cues', chart: '' } as const;
const TAG = { name: 'tag', asked: 3, right: 2, tapped: 3, offBeats: 1.5 };

describe('the results of the drills', () => {
  it('[DRILL-4] are kept on the tablet, with the level at which one goes on', () => {
    const store = memoryStore();
    expect(openDrillResults(store).add(DAY, [TAG], 4)).toBe(true);
    openDrillResults(store).add(DAY, [TAG], 5);
    const { days, levels } = openDrillResults(store).get();
    expect(days).toEqual([{ ...DAY, name: 'tag', asked: 6, right: 4, tapped: 6, offBeats: 3 }]);
    expect(levels).toEqual({ cues: 5, spots: 1 });
  });

  it('of another tab are not lost', () => {
    const store = memoryStore();
    const here = openDrillResults(store);
    openDrillResults(store).add({ ...DAY, drill: 'spots', chart: 'ferry' }, [{ ...TAG, name: 'seam' }], 2);
    here.add(DAY, [TAG], 1);
    expect(
      openDrillResults(store)
        .get()
        .days.map(({ name }) => name),
    ).toEqual(['seam', 'tag']);
  });

  it('begin anew where something else was kept, and sound days beside nonsense stay', () => {
    const store = memoryStore();
    const sound = { ...DAY, ...TAG };
    for (const kept of ['{', '7', 'null', '{"days":7,"levels":9}']) {
      store.setItem(NAME, kept);
      expect(openDrillResults(store).get()).toMatchObject({ days: [], levels: { cues: 1, spots: 1 } });
    }
    const odd = [{ ...sound, right: 4 }, { ...sound, day: 'today' }, { ...sound, offBeats: null }, null];
    store.setItem(
      NAME,
      JSON.stringify({ days: [...odd, sound], levels: { cues: 99, spots: -3 }, playingDb: 20 }),
    );
    expect(openDrillResults(store).get()).toEqual({
      days: [sound],
      levels: { cues: 8, spots: 1 },
      playingDb: -36,
    });
  });

  it('say so where the tablet is full, and hold them until the page is closed', () => {
    const full = {
      ...memoryStore(),
      setItem: () => {
        throw new Error('full');
      },
    };
    const results = openDrillResults(full);
    expect(results.add(DAY, [TAG], 1)).toBe(false);
    expect(results.get().days).toHaveLength(1);
  });
});
