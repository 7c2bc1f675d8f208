import { describe, expect, it } from 'vitest';
import type { Cue } from '../../../common/stage/cue.ts';
import { semitonesAt } from '../../../common/stage/in-force.ts';
import { judge, judgeTakeBack } from '../../../common/stage/judge.ts';
import { locate } from '../../../common/stage/locate.ts';
import { perform } from '../../../common/stage/perform.ts';
import { upcoming } from '../../../common/stage/upcoming.ts';
import { readKey } from '../../../common/theory/key.ts';
import { readingFor, transposeSymbol } from '../../../common/theory/transpose.ts';
import { type Calls, START, take, twelveBars } from './support-road.ts';

const play = (...calls: Calls) => perform(take(twelveBars(), [[0, START], ...calls]));
const placeAt = (performance: ReturnType<typeof perform>, tMs: number) => {
  const where = locate(performance, tMs);
  return where.state === 'playing' ? where.place : where.state;
};
const LAST: Cue = { kind: 'lastChorus' };

describe('The worked examples: 4/4 at 120, twelve bars; Head, open solos, Head out', () => {
  it('[STAGE-20] counts two bars in from 600 ms, the downbeat at 4,600', () => {
    const performance = play();
    expect(locate(performance, -1)).toEqual({ state: 'waiting' });
    expect(locate(performance, 600)).toMatchObject({
      state: 'count',
      pulsesToCome: 8,
      countPulses: 8,
      barPulses: 4,
    });
    expect(locate(performance, 4599)).toMatchObject({ state: 'count' });
    expect(placeAt(performance, 4600)).toEqual({ leg: 'Head', pass: 1, barIndex: 0, pulse: 0 });
  });

  it('[STAGE-8] stands at bar 12, pulse 3.998, one ms before the Head is over, then in the Solos', () => {
    const performance = play();
    const where = locate(performance, 4600 + 23_999);
    expect(where).toMatchObject({ state: 'playing', place: { leg: 'Head', pass: 1, barIndex: 11 } });
    expect(where.state === 'playing' && where.place.pulse).toBeCloseTo(3.998, 9);
    expect(placeAt(performance, 28_600)).toEqual({ leg: 'Solos', pass: 1, barIndex: 0, pulse: 0 });
  });

  it('[STAGE-8] begins pass k of the open Solos at 28,600 + (k − 1)·24,000', () => {
    const performance = play();
    for (const pass of [1, 2, 3, 7, 40, 400]) {
      const startMs = 28_600 + (pass - 1) * 24_000;
      expect(placeAt(performance, startMs)).toEqual({ leg: 'Solos', pass, barIndex: 0, pulse: 0 });
    }
  });

  it('[STAGE-10] lands a last chorus called 600 ms before the top at that top', () => {
    expect(judge(play(), LAST, 100_000)).toEqual({
      ok: true,
      landsMs: 100_600,
      landsAt: { leg: 'Head out', pass: 1, barIndex: 0, pulse: 0 },
      barsToGo: 1,
    });
    const performance = play([100_000, LAST]);
    expect(placeAt(performance, 100_000)).toMatchObject({ leg: 'Solos', pass: 3, barIndex: 11 });
    expect(placeAt(performance, 100_600)).toEqual({ leg: 'Head out', pass: 1, barIndex: 0, pulse: 0 });
  });

  it('[STAGE-10] lands the same called 400 ms before the top a whole pass later', () => {
    expect(judge(play(), LAST, 100_200)).toMatchObject({ ok: true, landsMs: 124_600, barsToGo: 13 });
    const performance = play([100_200, LAST]);
    expect(placeAt(performance, 100_600)).toEqual({ leg: 'Solos', pass: 4, barIndex: 0, pulse: 0 });
    expect(placeAt(performance, 124_600)).toEqual({ leg: 'Head out', pass: 1, barIndex: 0, pulse: 0 });
  });

  it('[STAGE-14] goes on as if nothing had been said when the call is taken back 50 ms before it lands', () => {
    expect(judgeTakeBack(play([100_000, LAST]), 'c2', 100_550)).toEqual({ ok: true });
    const performance = play([100_000, LAST], [100_550, { kind: 'takeBack', cue: 'c2' }]);
    expect(placeAt(performance, 100_600)).toEqual({ leg: 'Solos', pass: 4, barIndex: 0, pulse: 0 });
    expect(judgeTakeBack(play([100_000, LAST]), 'c2', 100_600)).toMatchObject({ ok: false, why: 'landed' });
  });

  it('[STAGE-24] plays the last four bars twice more after a tag in the Head out', () => {
    const performance = play([100_000, LAST], [110_000, { kind: 'tag' }]);
    expect(placeAt(performance, 124_599)).toMatchObject({ leg: 'Head out', barIndex: 11 });
    const tag = upcoming(performance, 124_599, 9);
    expect(tag.map(({ bar, place }) => [bar.id, place.pass])).toEqual([
      ...['a9', 'a10', 'a11', 'a12'].map((id) => [id, 1]),
      ...['a9', 'a10', 'a11', 'a12'].map((id) => [id, 2]),
    ]);
    expect(tag[0]?.leg.tag).toEqual({ timesInAll: 3 });
    expect(locate(performance, 140_599)).toMatchObject({ state: 'playing' });
    expect(locate(performance, 140_600)).toEqual({ state: 'ended', atMs: 140_600 });
  });

  it('[STAGE-27] lands tempo 90 called at 30,000 on the pulse at 30,600; that bar lasts 2,666.67 ms', () => {
    const performance = play([30_000, { kind: 'tempo', bpm: 90 }]);
    expect(locate(performance, 30_600)).toEqual({
      state: 'playing',
      place: { leg: 'Solos', pass: 1, barIndex: 1, pulse: 0 },
      bar: 13,
      bpm: 90,
    });
    expect(locate(performance, 30_599)).toMatchObject({ bpm: 120, place: { barIndex: 0 } });
    expect(upcoming(performance, 30_600, 1)[0]?.startMs).toBeCloseTo(30_600 + 2666.67, 2);
  });

  it('[STAGE-50] reads a concert E♭7 as E7 from pass 2 on after an up during pass 1', () => {
    const performance = play([30_000, { kind: 'up' }]);
    const read = (tMs: number) =>
      transposeSymbol('Eb7', readingFor(readKey('Eb blues'), semitonesAt(performance, tMs)));
    expect([52_599, 52_600].map(read)).toEqual(['Eb7', 'E7']);
    // Each reader in the reader's own key: a tenor sax, written 14 semitones up, reads F7 and then, six sharps
    // or six flats being as good, G♭7.
    const onTenor = (tMs: number) =>
      transposeSymbol('Eb7', readingFor(readKey('Eb blues'), 14 + semitonesAt(performance, tMs)));
    expect([52_599, 52_600].map(onTenor)).toEqual(['F7', 'Gb7']);
  });
});
