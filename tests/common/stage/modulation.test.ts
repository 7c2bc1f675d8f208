import { describe, expect, it } from 'vitest';
import { announced } from '../../../common/stage/announce.ts';
import { conduct } from '../../../common/stage/conduct.ts';
import type { Cue } from '../../../common/stage/cue.ts';
import { semitonesAt } from '../../../common/stage/in-force.ts';
import { judge } from '../../../common/stage/judge.ts';
import { type Performance, perform } from '../../../common/stage/perform.ts';
import { upcoming } from '../../../common/stage/upcoming.ts';
import { allBars, play } from './support-read.ts';
import { bars, leg, road, START, take, twelveBars } from './support-road.ts';

const UP: Cue = { kind: 'up' };
const down = (semitones: number): Cue => ({ kind: 'down', semitones });
const inE = { ...twelveBars(), key: 'Eb' };
const semitones = (performance: Performance, most: number) =>
  allBars(performance, most).map((bar) => bar.semitones ?? 0);

describe('Up and down', () => {
  it('[STAGE-50] reads the chart higher from the next pass on, and bars ahead in the key to come', () => {
    // Solos begin at 28,600; the pass that is on at 30,000 ends at 52,600.
    const performance = play(inE, [30_000, UP]);
    expect(semitonesAt(performance, 52_599)).toBe(0);
    expect(semitonesAt(performance, 52_600)).toBe(1);
    expect(semitones(performance, 36)).toEqual([...Array(24).fill(0), ...Array(12).fill(1)]);
    expect(upcoming(performance, 52_000, 1)).toMatchObject([{ semitones: 1, place: { pass: 2 } }]);
  });

  it('[STAGE-50] is told with the concert key that follows', () => {
    const told = (cue: Cue, onRoad = inE) => {
      const [one] = announced(play(onRoad, [30_000, cue]), 30_600);
      return one && `${one.family}: ${one.name} · ${one.detail}`;
    };
    expect(told(UP)).toBe('more: Up a half step · concert E major');
    expect(told({ kind: 'up', semitones: 2 })).toBe('more: Up a whole step · concert F major');
    expect(told(down(3))).toBe('more: Down 3 half steps · concert C major');
    expect(told(UP, twelveBars())).toBe('more: Up a half step · ');
    const two = play(inE, [30_000, UP], [30_100, down(3)]);
    expect(announced(two, 30_700).map(({ detail }) => detail)).toEqual(Array(2).fill('concert D♭ major'));
  });

  it('[STAGE-50] keeps the whole within an octave: an octave higher is the same chart', () => {
    // 7 + 7 = 14, an octave and 2.
    expect(
      semitones(
        play(inE, [30_000, { kind: 'up', semitones: 7 }], [30_000, { kind: 'up', semitones: 7 }]),
        25,
      )[24],
    ).toBe(2);
    expect(semitones(play(inE, [30_000, down(11)], [30_000, down(1)]), 25)[24]).toBe(0);
    for (const steps of [0, 12, 1.5, -1, Number.NaN]) {
      expect(judge(play(inE), { kind: 'up', semitones: steps }, 30_000)).toMatchObject({
        why: 'badInterval',
      });
    }
  });

  it('[STAGE-50] names a key that is written later as it sounds by then', () => {
    const a = bars('a', 8);
    const inG = a.map((bar, i) => {
      const music = { ...bar.content.music, key: i < 4 ? 'Eb' : 'G' };
      return { ...bar, content: { ...bar.content, music } };
    });
    const performance = play(road([leg('A', 3, inG)], { countBars: 0, key: 'Eb' }), [5000, UP]);
    const keys = announced(performance, 17_200).map(({ name, detail }) => `${name} · ${detail}`);
    expect(keys).toEqual(['Key · concert A♭ major', 'Key · concert E major']);
  });

  it('[STAGE-50] takes what lands at the end of the road into the tag, and nothing beyond the end', () => {
    const short = road([leg('A', 1, bars('a', 4))], { countBars: 0 });
    expect(judge(play(short), UP, 1000)).toMatchObject({ ok: false, why: 'over' });
    expect(semitones(play(short, [1000, { kind: 'tag' }], [1500, UP]), 6)).toEqual([0, 0, 0, 0, 1, 1]);
  });

  it('[STAGE-35] [STAGE-50] works at once while waiting', () => {
    const performance = perform(
      take(inE, [
        [1000, UP],
        [2000, UP],
        [3000, START],
      ]),
    );
    expect([999, 1000, 1999, 2000].map((t) => semitonesAt(performance, t))).toEqual([0, 1, 1, 2]);
    expect(upcoming(performance, 4000, 3).map((bar) => bar.semitones)).toEqual([2, 2, 2]);
    expect(upcoming(perform(take(inE, [[1000, UP]])), 1500, 1)).toMatchObject([{ semitones: 1 }]);
  });

  it('[STAGE-51] keeps a key asked for before the count-in when the tune is begun again, not the ups on the way', () => {
    const ended = perform({
      ...take(inE, [
        [0, down(2)],
        [1000, START],
        [2000, { kind: 'soloOrder', players: ['Tomas', 'Bea'] }],
        [10_000, UP],
        [40_000, { kind: 'stop' }],
      ]),
      semitones: 3,
    });
    expect([6000, 35_000, 50_000].map((t) => semitonesAt(ended, t))).toEqual([1, 2, 1]);
    const { take: first } = ended;
    const context = { newTakeId: 't2' };
    const again = conduct(
      { take: first, performance: ended },
      { id: 'go', cue: START, by: 'ines' },
      60_000,
      context,
    );
    expect(again).toMatchObject({
      ok: true,
      effect: {
        kind: 'newTake',
        called: { id: 'go' },
        take: {
          semitones: 1,
          cues: [{ cue: { kind: 'soloOrder', players: ['Tomas', 'Bea'] }, by: 'ines' }, { id: 'go' }],
        },
      },
    });
  });
});
