import { describe, expect, it } from 'vitest';
import type { Cue } from '../../../common/stage/cue.ts';
import { judge } from '../../../common/stage/judge.ts';
import { allBars, play, told } from './support-read.ts';
import { bars, leg, mark, road } from './support-road.ts';

const four = bars('a', 4);
const once = road([leg('Head', 1, four)], { countBars: 0 });
const TAG: Cue = { kind: 'tag', bars: 2 };

describe('Tag', () => {
  it('[STAGE-24] is a leg of its own: the last bars, three times in all', () => {
    const performance = play(once, [1000, TAG]);
    const played = allBars(performance);
    expect(played.map(({ bar }) => bar.id)).toEqual(['a1', 'a2', 'a3', 'a4', 'a3', 'a4', 'a3', 'a4']);
    expect(played.at(-1)).toMatchObject({
      passes: 2,
      place: { pass: 2 },
      leg: { name: 'Tag', tag: { timesInAll: 3 } },
    });
    expect(judge(play(once), TAG, 1000)).toMatchObject({ ok: true, landsMs: 8600, barsToGo: 4 });
  });

  it('[STAGE-24] comes after any one more', () => {
    expect(told(play(once, [1000, TAG], [1100, { kind: 'oneMore' }])).slice(7, 10)).toEqual([
      'Head 2.4',
      'tag:c2 1.1',
      'tag:c2 1.2',
    ]);
  });

  it('[STAGE-24] is clamped to the leg', () => {
    expect(allBars(play(once, [1000, { kind: 'tag', bars: 9, times: 2 }])).map(({ bar }) => bar.id)).toEqual([
      ...['a1', 'a2', 'a3', 'a4'],
      ...['a1', 'a2', 'a3', 'a4'],
    ]);
  });

  it('[STAGE-24] is what the later call says, until that one is taken back', () => {
    const later: Cue = { kind: 'tag', bars: 1, times: 2 };
    expect(allBars(play(once, [1000, TAG], [1100, later]))).toHaveLength(5);
    expect(
      allBars(play(once, [1000, TAG], [1100, later], [1200, { kind: 'takeBack', cue: 'c3' }])),
    ).toHaveLength(8);
  });

  it('[STAGE-24] is refused where a tag is written, which one more lengthens', () => {
    const written = leg('Tag', 2, four.slice(2), { tag: { timesInAll: 3 } });
    const on = road([...once.legs, written], { countBars: 0 });
    expect(judge(play(on), TAG, 1000)).toMatchObject({ ok: false, why: 'tagWritten' });
    expect(judge(play(on), TAG, 9000)).toMatchObject({ ok: false, why: 'inTag' });
    const longer = allBars(play(on, [9000, { kind: 'oneMore' }]));
    expect(longer).toHaveLength(4 + 3 * 2);
    expect(longer.at(-1)?.leg.tag).toEqual({ timesInAll: 4 });
  });

  it('[STAGE-24] called is lengthened by one more too, and refused within itself', () => {
    const performance = play(once, [1000, TAG], [9000, { kind: 'oneMore' }]);
    expect(allBars(performance)).toHaveLength(4 + 3 * 2);
    expect(judge(performance, TAG, 9500)).toMatchObject({ ok: false, why: 'inTag' });
  });

  it('[STAGE-24] waits for the last leg, however long the solos last', () => {
    const on = road([leg('Solos', 'open', four), leg('Out', 1, four)], { countBars: 0 });
    expect(judge(play(on), TAG, 1000)).toMatchObject({ ok: true, landsMs: Number.POSITIVE_INFINITY });
    expect(allBars(play(on, [1000, TAG], [9000, { kind: 'lastChorus' }]))).toHaveLength(8 + 4 + 4);
  });

  it('[STAGE-24] repeats the bars as they were played in the last pass', () => {
    const marks = [mark({ kind: 'break', bars: 1 }, 0, 1), mark({ kind: 'break', bars: 1 }, 0, 'last')];
    const others = { 2: { marks: marks.slice(0, 1) }, 3: { marks: marks.slice(1) } };
    const on = road([leg('Head', 2, bars('a', 4, others))], { countBars: 0 });
    const sound = allBars(play(on, [1000, TAG])).map(({ out }) => out ?? '-');
    expect(sound).toEqual(['-', '-', 'hit', '-', '-', '-', '-', 'hit', '-', 'hit', '-', 'hit']);
  });

  it('[STAGE-24] is one bar or more, twice or more', () => {
    for (const wrong of [{ bars: 0 }, { times: 1 }, { bars: 1.5 }, { bars: Number.NaN }, { times: 1000 }]) {
      expect(judge(play(once), { kind: 'tag', ...wrong }, 1000)).toMatchObject({ ok: false, why: 'badTag' });
    }
  });
});
