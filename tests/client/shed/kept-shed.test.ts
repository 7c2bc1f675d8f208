import { describe, expect, it, vi } from 'vitest';
import { forgetShed, type KeptShed, keepShed, readKeptShed } from '../../../client/shed/kept-shed.ts';
import { memoryStore } from '../../../client/storage/stored-json.ts';
import { chart } from '../../common/band/support-band.ts';
import { START, take } from '../../common/stage/support-road.ts';

const MINUTE_MS = 60_000;
const playing = take({ ...chart('| C7 | F7 | Bb7 | C7 |', { road: 'Head: A x2' }), tempoBpm: 97 }, [
  [1000, START],
]);
const left: KeptShed = { chart: 'c1', room: 'podium', take: playing, lost: 'sound', leftAtMs: 5000 };

const kept = (value: unknown = left) => {
  const store = memoryStore();
  keepShed(store, value as KeptShed);
  return store;
};

describe('the Shed of a page that was loaded anew', () => {
  it('is in the room where it was, with what was on its stage', () => {
    expect(readKeptShed(kept(), 'c1', 5500)).toEqual(left);
  });

  it('begins anew with another chart, after a long time, and when it was left for another page', () => {
    expect(readKeptShed(kept(), 'c2', 5500)).toBeNull();
    expect(readKeptShed(kept(), 'c1', 5000 + 10 * MINUTE_MS)).not.toBeNull();
    expect(readKeptShed(kept(), 'c1', 5001 + 10 * MINUTE_MS)).toBeNull();
    // A clock that was put back: nobody knows how long.
    expect(readKeptShed(kept(), 'c1', 4999)).toBeNull();
    const store = kept();
    forgetShed(store);
    expect(readKeptShed(store, 'c1', 5500)).toBeNull();
  });

  it('makes no use of what is no take, or none that can be played', () => {
    const warned = vi.spyOn(console, 'warn').mockImplementation(() => {});
    const of = (take: unknown) => readKeptShed(kept({ ...left, take, room: 'attic' }), 'c1', 5500);
    expect(of('x')).toMatchObject({ take: null, room: 'study' });
    expect(of({ id: 't', chart: 'c1', road: { legs: [{}] }, cues: playing.cues })?.take).toBeNull();
    expect(warned).toHaveBeenCalledTimes(1);
    warned.mockRestore();
    const broken = memoryStore();
    broken.setItem('tillcue.shed', '{');
    expect(readKeptShed(broken, 'c1', 5500)).toBeNull();
  });
});
