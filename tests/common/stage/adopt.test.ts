import { describe, expect, it } from 'vitest';
import type { Leg } from '../../../common/form/road.ts';
import { announced } from '../../../common/stage/announce.ts';
import { legAt, roadAt, semitonesAt } from '../../../common/stage/in-force.ts';
import { judge } from '../../../common/stage/judge.ts';
import { lostLeg } from '../../../common/stage/lost-leg.ts';
import { perform } from '../../../common/stage/perform.ts';
import { allBars, at, play, told } from './support-read.ts';
import { bars, leg, road, START, take } from './support-road.ts';

const two = bars('a', 2);
const three = bars('n', 3);
const on = (...legs: Leg[]) => road(legs, { countBars: 0 });
const old = on(leg('Head', 2, two), leg('Solos', 'open', two), leg('Bridge', 1, two), leg('Out', 1, two));
const adopt = (atMs: number, ...legs: Leg[]) => [atMs, { kind: 'adopt', road: on(...legs) }] as const;

describe('Adopting an edited chart', () => {
  it('[STAGE-30] lands at the pass end; the leg goes on with its new bars', () => {
    const performance = play(old, adopt(1000, leg('Head', 2, three), leg('Out', 1, two)));
    expect(told(performance)).toEqual([
      ...['Head 1.1', 'Head 1.2', 'Head 2.1', 'Head 2.2', 'Head 2.3'],
      ...['Out 1.1', 'Out 1.2', 'end'],
    ]);
    expect(roadAt(performance, 4599).legs).toHaveLength(4);
    expect(roadAt(performance, 4600).legs).toHaveLength(2);
  });

  it('[STAGE-30] keeps the pass counts that cues have made', () => {
    const more = play(old, [1000, { kind: 'oneMore' }], adopt(5000, leg('Head', 2, two), leg('Out', 1, two)));
    expect(told(more, 7).at(4)).toBe('Head 3.1');
    const written = play(old, adopt(1000, leg('Head', 3, two), leg('Out', 1, two)));
    expect(told(written, 7).at(4)).toBe('Head 3.1');
  });

  it('[STAGE-30] goes to the next leg where enough passes have been played', () => {
    expect(told(play(old, adopt(1000, leg('Head', 1, three), leg('Out', 1, two)))).slice(2)).toEqual([
      ...['Out 1.1', 'Out 1.2', 'end'],
    ]);
  });

  it('[STAGE-30] goes to the next old leg that still stands where the leg is gone, else to the end', () => {
    const gone = play(old, adopt(1000, leg('New', 1, two), leg('Bridge', 1, three), leg('Out', 1, two)));
    expect(told(gone)).toEqual([
      ...['Head 1.1', 'Head 1.2', 'Bridge 1.1', 'Bridge 1.2', 'Bridge 1.3'],
      ...['Out 1.1', 'Out 1.2', 'end'],
    ]);
    expect(told(play(old, adopt(1000, leg('New', 1, two))))).toEqual(['Head 1.1', 'Head 1.2', 'end']);
    expect(told(play(old, adopt(1000)))).toEqual(['Head 1.1', 'Head 1.2', 'end']);
  });

  it('[STAGE-30] leaves a tag that is being played as it is', () => {
    const once = on(leg('Head', 1, two));
    const performance = play(
      once,
      [1000, { kind: 'tag', bars: 1, times: 4 }],
      adopt(5000, leg('Head', 1, three), leg('New', 1, two)),
    );
    expect(allBars(performance)).toHaveLength(2 + 3);
    const written = on(leg('Head', 1, two), leg('Tag', 2, two.slice(1), { tag: { timesInAll: 3 } }));
    const edited = [
      leg('Head', 1, three),
      leg('Tag', 2, three.slice(1), { tag: { timesInAll: 3 } }),
      leg('Coda', 1, two),
    ];
    expect(allBars(play(written, adopt(4700, ...edited))).map(({ bar }) => bar.id)).toEqual([
      ...['a1', 'a2', 'a2', 'a2'],
      ...['a1', 'a2'],
    ]);
  });

  it('[STAGE-30] never goes on with a written tag over other bars than it had', () => {
    const tagOf = (over: typeof two) => leg('Tag', 2, over, { tag: { timesInAll: 3 } });
    const intro = bars('i', 2);
    const played = on(leg('Intro', 1, intro), leg('Head', 2, two), leg('Out', 1, two), tagOf(two));
    const taken = adopt(5000, leg('Intro', 1, intro), tagOf(intro));
    expect(told(play(played, taken))).toEqual(['Intro 1.1', 'Intro 1.2', 'Head 1.1', 'Head 1.2', 'end']);
  });

  it('[STAGE-82] drops a called tag whose leg is gone, and announces it for the same line', () => {
    const out = bars('o', 2);
    const tune = on(leg('Head', 1, two), leg('Solos', 'open', two), leg('Out', 1, out));
    const tag = [5000, { kind: 'tag' }] as const;
    const taken = [5100, { kind: 'adopt', road: on(leg('Solos', 'open', two)) }] as const;
    const last = [9000, { kind: 'lastChorus' }] as const;
    const gone = play(tune, tag, taken, last);
    expect(told(gone).slice(2)).toEqual([...['Solos 1.1', 'Solos 1.2', 'Solos 2.1', 'Solos 2.2'], 'end']);
    const news = announced(gone, 6000).filter(({ barsToGo }) => barsToGo === 2);
    expect(
      news.map(({ name, detail, barsToGo, canTakeBack }) => [name, detail, barsToGo, canTakeBack]),
    ).toEqual([
      ['New arrangement', 'Solos', 2, true],
      ['No tag', 'its leg is gone', 2, true],
    ]);
    expect(announced(gone, 9100).some(({ kind }) => kind === 'tag')).toBe(false);
    const back = play(tune, tag, taken, [6000, { kind: 'takeBack', cue: 'c3' }], last);
    expect(told(back).slice(-5)).toEqual(['tag:c2 1.1', 'tag:c2 1.2', 'tag:c2 2.1', 'tag:c2 2.2', 'end']);
  });

  it('[STAGE-82] keeps a called tag whose leg was edited, and one that was called for the new road', () => {
    const out = bars('o', 2);
    const tune = on(leg('Head', 2, two), leg('Out', 1, out));
    const tag = (atMs: number) => [atMs, { kind: 'tag', bars: 1, times: 2 }] as const;
    const longer = adopt(1100, leg('Head', 2, two), leg('Out', 1, [...out, ...bars('x', 1)]));
    expect(allBars(play(tune, tag(1000), longer)).map(({ bar }) => bar.id)).toEqual([
      ...['a1', 'a2', 'a1', 'a2', 'o1', 'o2', 'x1', 'x1'],
    ]);
    const shorter = adopt(1000, leg('Head', 2, two));
    expect(told(play(tune, shorter, tag(1100)))).toEqual([
      ...['Head 1.1', 'Head 1.2', 'Head 2.1', 'Head 2.2'],
      ...['tag:c3 1.1', 'end'],
    ]);
  });

  it('[STAGE-84] tells which leg being played it would take away, and what would follow', () => {
    const lost = (...legs: Leg[]) => lostLeg(play(old), on(...legs), 1000);
    expect(lost(leg('Head', 3, three))).toBeNull();
    expect(lost(leg('Bridge', 1, two), leg('Out', 1, two))).toEqual({ name: 'Head', next: 'Bridge' });
    expect(lost(leg('New', 1, two))).toEqual({ name: 'Head', next: null });
    expect(lost()).toEqual({ name: 'Head', next: null });
    const tagged = on(leg('Head', 1, two), leg('Tag', 2, two, { tag: { timesInAll: 3 } }));
    expect(lostLeg(play(tagged), on(leg('New', 1, two)), 5000)).toBeNull();
    expect(lostLeg(perform(take(old, [])), on(leg('New', 1, two)), 0)).toBeNull();
  });

  it('[STAGE-30] works at once while waiting and when ended, with its tempo', () => {
    const fresh = { ...on(leg('New', 1, two)), tempoBpm: 60 };
    const waiting = perform(
      take(old, [
        [0, { kind: 'adopt', road: fresh }],
        [1000, START],
      ]),
    );
    expect(at(waiting, 1600 + 4000)).toBe('New 1.2+0');
    const ended = play(old, [1000, { kind: 'stop' }], [3000, { kind: 'adopt', road: fresh }]);
    expect(roadAt(ended, 2999).legs).toHaveLength(4);
    expect(roadAt(ended, 3000).legs).toHaveLength(1);
  });

  it('[STAGE-30] treats the count-in as rolling', () => {
    const verdict = judge(play(old), { kind: 'adopt', road: on(leg('Head', 2, three)) }, 100);
    expect(verdict).toMatchObject({ ok: true, landsMs: 4600 });
  });

  it('[STAGE-12] drops a go to whose leg is gone when it lands', () => {
    const goTo = [1000, { kind: 'goTo', leg: 'Bridge', barIndex: 0 }] as const;
    const performance = play(old, goTo, adopt(1100, leg('Head', 2, two), leg('Out', 1, two)));
    expect(told(performance, 4)).toEqual(['Head 1.1', 'Head 1.2', 'Head 2.1', 'Head 2.2']);
  });

  it('[STAGE-30] tells the leg and the key in force at an instant', () => {
    const performance = perform({ ...take(old, [[0, START]]), semitones: 2 });
    expect(semitonesAt(performance, 5000)).toBe(2);
    expect([-1, 100, 700, 1e6].map((t) => legAt(performance, t)?.id ?? null)).toEqual([
      ...[null, 'Head', 'Head', 'Solos'],
    ]);
  });

  it('[STAGE-36] drops bars without a length and legs without bars', () => {
    const empty = [{ ...two[0], pulses: 0 }] as typeof two;
    const performance = play(on(leg('None', 1, []), leg('Zero', 2, empty), leg('A', 1, [...empty, ...two])));
    expect(told(performance)).toEqual(['A 1.1', 'A 1.2', 'end']);
  });

  it('[STAGE-36] ends a take that was forgotten for 100,000 bars', () => {
    const open = play(on(leg('A', 'open', two)));
    expect(at(open, 600 + 99_999 * 2000)).toBe('A 50000.2+0');
    expect(at(open, 600 + 100_000 * 2000)).toBe('ended');
  });
});
