import { describe, expect, it } from 'vitest';
import type { Called, Take } from '../../../common/stage/cue.ts';
import { judgeTakeBack } from '../../../common/stage/judge.ts';
import { perform } from '../../../common/stage/perform.ts';
import { at } from './support-read.ts';
import { START, take, twelveBars } from './support-road.ts';

const tune = take(twelveBars(), [
  [0, START],
  [5000, { kind: 'tempo', bpm: 100 }],
  [9000, { kind: 'tempo', bpm: 120 }],
]);
const more = (on: Take, called: Called): Take => ({ ...on, cues: [...on.cues, called] });
const stop: Called = { id: 'stop', cue: { kind: 'stop' }, calledAtMs: 20_000 };

describe('A take that goes on', () => {
  it('[STAGE-70] folds only what is new', () => {
    let reads = 0;
    const cues = tune.cues.map(({ id, cue, calledAtMs }) => ({
      id,
      calledAtMs,
      get cue() {
        reads += 1;
        return cue;
      },
    }));
    const before = perform({ ...tune, cues });
    expect(reads).toBeGreaterThan(0);
    reads = 0;
    const performance = perform(more({ ...tune, cues }, stop), before);
    expect(reads).toBe(0);
    expect(at(performance, 30_000)).toBe('ended');
  });

  it('[STAGE-70] leaves the earlier performance as it was, however many go on from it', () => {
    const before = perform(tune);
    const stopped = perform(more(tune, stop), before);
    const broken = perform(
      more(tune, { id: 'x', cue: { kind: 'goTo', leg: 'Solos', barIndex: 4 }, calledAtMs: 20_000 }),
      before,
    );
    expect([before, stopped, broken].map((one) => at(one, 40_000).split('+')[0])).toEqual([
      'Solos 1.6',
      'ended',
      'Solos 2.2',
    ]);
  });

  it('[STAGE-70] [STAGE-14] takes back what was called before', () => {
    const called = more(tune, stop);
    const back = more(called, { id: 'b', cue: { kind: 'takeBack', cue: 'stop' }, calledAtMs: 20_100 });
    const performance = perform(back, perform(called));
    expect(at(performance, 40_000)).toBe(at(perform(tune), 40_000));
    expect(judgeTakeBack(performance, 'stop', 20_200)).toMatchObject({ why: 'void' });
    const again = more(back, { id: 'stop', cue: { kind: 'stop' }, calledAtMs: 21_000 });
    expect(at(perform(again, performance), 40_000)).toBe(at(perform(tune), 40_000));
  });

  it('[STAGE-70] is folded from its start where it does not go on from the other', () => {
    const stopped = perform(more(tune, stop));
    expect(at(perform(tune, stopped), 40_000)).toBe(at(perform(tune), 40_000));
    const other: Take = { ...more(tune, stop), id: 'other' };
    expect(at(perform(other, perform(tune)), 40_000)).toBe('ended');
    const edited = { ...tune, road: { ...tune.road, tempoBpm: 60 } };
    expect(at(perform(edited, perform(tune)), 4600)).toBe('count');
  });
});
