import { describe, expect, it } from 'vitest';
import { bandEvents } from '../../../common/band/band-events.ts';
import { DRUMS } from '../../../common/band/drum-kit.ts';
import { offbeatAt, swingRatio } from '../../../common/band/swing.ts';
import { locate } from '../../../common/stage/locate.ts';
import { allEvents, barTimes, chart, eventsOfBar, inBar, pitches, placesOf, played } from './support-band.ts';

// A chart at 120 with one bar of count-in: bar 1 begins at 2600, a bar of four lasts 2000 ms.
const FIRST_MS = 2600;
const BAND = ['bass', 'comping', 'drums'] as const;

describe('breaks, stop-time and hits', () => {
  it('[BAND-5] in a written break beat one is hit by all and nothing more sounds until it is over', () => {
    const one = played(chart('| C7 | "break 2" F7 | G7 | C7 |'));
    for (const voice of BAND) expect(inBar(one, 1, voice)).toEqual([0]);
    expect(eventsOfBar(one, 2)).toEqual([]);
    const { startMs } = barTimes(one.performance, 1);
    for (const { atMs, lengthMs } of eventsOfBar(one, 1)) expect(atMs + lengthMs).toBeLessThan(startMs + 500);
    expect(inBar(one, 3, 'bass')).toEqual([0, 1, 2, 3]);
  });

  it('[BAND-5] nothing that began before the break sounds on into it', () => {
    const one = played(chart('| C7 | "break 2" F7 | G7 | C7 |'), { feel: 'ballad' });
    for (const { atMs, lengthMs } of eventsOfBar(one, 0))
      expect(atMs + lengthMs).toBeLessThanOrEqual(4600 + 1e-6);
  });

  it('[BAND-5] a break that is called acts as one that is written, and the click goes on where that is asked for', () => {
    const road = chart('| C7 | F7 | G7 | C7 ||\n| C7 | F7 | G7 | C7 |');
    const calls = [[3000, { kind: 'break', bars: 2, at: 'phrase' }]] as const;
    const one = played(road, { calls });
    expect(inBar(one, 4, 'bass')).toEqual([0]);
    expect(eventsOfBar(one, 5)).toEqual([]);
    expect(inBar(one, 4, 'click')).toEqual([0]);
    const click = { ...one.band.click, inBreaks: true };
    expect(inBar({ ...one, band: { ...one.band, click } }, 5, 'click')).toEqual([0, 1, 2, 3]);
  });

  it('[BAND-5] a rest is silent for its time', () => {
    const one = played(chart('| C7 / r r | r C7 / / |'));
    for (const voice of BAND) {
      expect(inBar(one, 0, voice).every((place) => place < 2)).toBe(true);
      expect(inBar(one, 0, voice)).toContain(0);
      expect(inBar(one, 1, voice)[0]).toBe(1);
    }
    for (const { atMs, lengthMs } of eventsOfBar(one, 0))
      expect(atMs + lengthMs).toBeLessThanOrEqual(FIRST_MS + 1000);
  });

  it('[BAND-6] in stop-time, written or called, all hit on one', () => {
    const written = played(chart('| C7 | "stop-time" F7 | G7 |'));
    for (const voice of BAND) expect(inBar(written, 2, voice)).toEqual([0]);
    const called = played(chart('| C7 | F7 ||\n| G7 | C7 |'), { calls: [[3000, { kind: 'stopTime' }]] });
    expect(inBar(called, 1, 'bass')).toHaveLength(4);
    for (const voice of BAND) expect(inBar(called, 2, voice)).toEqual([0]);
  });

  it('[BAND-6] of hits only those are played, by all, each with its chord, where the feel has its off-beats', () => {
    const one = played(chart('| "hits 1 2& 4" C7 F7 G7 |'));
    const andOfTwo = Math.round((1 + offbeatAt(3.5)) * 1000) / 1000;
    for (const voice of BAND) expect(inBar(one, 0, voice)).toEqual([0, andOfTwo, 3]);
    expect(pitches(eventsOfBar(one, 0), 'bass').map((midi) => midi % 12)).toEqual([0, 5, 7]);
    const straight = played(chart('| "hits 1 2& 4" C7 F7 G7 |'), { feel: 'straight 8ths' });
    expect(inBar(straight, 0, 'bass')).toEqual([0, 1.5, 3]);
  });

  it('[BAND-6] kicks are caught while time goes on', () => {
    const one = played(chart('| "kicks 2& 4" C7 |'), { feel: 'straight 8ths', fills: false });
    expect(inBar(one, 0, 'comping')).toEqual([1.5, 3]);
    expect(inBar(one, 0, 'drums')).toContain(0.5);
    const crashes = eventsOfBar(one, 0).filter(({ midi }) => midi === DRUMS.crash);
    expect(placesOf(crashes, 'drums', FIRST_MS)).toEqual([1.5, 3]);
  });

  it('[BAND-6] marks for one time through act in that pass alone', () => {
    const one = played(chart('| "2nd x: hits 1" C7 | F7 |', { road: 'Head: A x2' }));
    expect(inBar(one, 0, 'bass')).toHaveLength(4);
    expect(inBar(one, 2, 'bass')).toEqual([0]);
  });
});

describe('pushes', () => {
  it('[BAND-7] a chord is played an eighth early by all and not struck again on its beat', () => {
    const one = played(chart('| C7 / <F7 / |'), { feel: 'straight 8ths', fills: false });
    expect(inBar(one, 0, 'bass')).toContain(1.5);
    expect(inBar(one, 0, 'bass')).not.toContain(2);
    expect(inBar(one, 0, 'comping')).toContain(1.5);
    expect(inBar(one, 0, 'comping')).not.toContain(2);
    const bass = eventsOfBar(one, 0).find(({ voice, atMs }) => voice === 'bass' && atMs === FIRST_MS + 750);
    expect((bass?.midi ?? 0) % 12).toBe(5);
  });

  it('[BAND-7] where the feel has its eighths: swung, and a third of a pulse in compound time', () => {
    const swung = played(chart('| C7 / <F7 / |'));
    expect(inBar(swung, 0, 'bass')).toContain(Math.round((1 + offbeatAt(swingRatio(120))) * 1000) / 1000);
    const compound = played(chart('| C7 <F7 |', { head: 'time: 6/8' }), { feel: 'ballad', fills: false });
    expect(inBar(compound, 0, 'bass')).toEqual([0, 0.667]);
  });

  it('[BAND-7] over a bar line it is played in the bar before', () => {
    const one = played(chart('| C7 | <F7 |'), { feel: 'straight 8ths', fills: false });
    const early = eventsOfBar(one, 0).filter(
      ({ voice, atMs }) => voice === 'bass' && atMs === FIRST_MS + 1750,
    );
    expect(early.map(({ midi }) => midi % 12)).toEqual([5]);
    expect(inBar(one, 1, 'bass')).not.toContain(0);
    expect(inBar(one, 1, 'comping')).not.toContain(0);
  });

  it.each([
    ['a break', '| "break" C7 | <F7 |'],
    ['a rest', '| C7 / / r | <F7 |'],
    ['hits', '| "hits 1" C7 | <F7 |'],
  ])('[BAND-7] after %s it comes in its own place, the silence stays', (_, music) => {
    const one = played(chart(music), { feel: 'straight 8ths', fills: false });
    expect(inBar(one, 0, 'bass').every((place) => place < 3)).toBe(true);
    expect(inBar(one, 1, 'bass')).toContain(0);
  });

  it('[BAND-7] nothing is pushed into a bar that does not begin with a stroke', () => {
    const one = played(chart('| C7 | "hits 2 3" <F7 |'), { feel: 'straight 8ths', fills: false });
    const late = eventsOfBar(one, 0).filter(({ voice, atMs }) => voice === 'bass' && atMs >= FIRST_MS + 1750);
    expect(late.every(({ midi }) => midi % 12 === 0)).toBe(true);
    expect(inBar(one, 1, 'bass')).toEqual([1, 2]);
  });

  it('[BAND-7] after a go to the band pushes into the bar that really follows', () => {
    const road = chart('| C7 ||\n| F7 ||\n| <G7 |', { road: 'Head: A' });
    const one = played(road, {
      feel: 'straight 8ths',
      calls: [[3000, { kind: 'goTo', leg: road.legs[0]?.id ?? '', barIndex: 2 }]],
    });
    const early = eventsOfBar(one, 0).filter(
      ({ voice, atMs }) => voice === 'bass' && atMs === FIRST_MS + 1750,
    );
    expect(early.map(({ midi }) => midi % 12)).toEqual([7]);
  });
});

describe('holds', () => {
  it('[BAND-8] the last chord is struck by all and lasts to the release', () => {
    const road = chart('| C7 | "hold" F7 |');
    const one = played(road, { calls: [[8000, { kind: 'release' }]] });
    expect(locate(one.performance, 7000).state).toBe('held');
    const held = allEvents(one).filter(({ atMs, voice }) => atMs >= 4600 && voice !== 'click');
    const releaseMs = 8500;
    for (const { atMs, lengthMs } of held) {
      expect(atMs).toBe(4600);
      expect(atMs + lengthMs).toBeCloseTo(releaseMs, 6);
    }
    expect(new Set(held.map(({ voice }) => voice))).toEqual(new Set(['bass', 'comping', 'drums']));
    expect(pitches(held, 'bass').map((midi) => midi % 12)).toEqual([5]);
  });

  it('[BAND-8] while nobody has released it nobody knows how long it is', () => {
    const held = allEvents(played(chart('| C7 | "hold" F7 |'))).filter(
      ({ atMs, voice }) => atMs >= 4600 && voice !== 'click',
    );
    expect(held.length).toBeGreaterThan(3);
    expect(held.every(({ lengthMs }) => lengthMs === Number.POSITIVE_INFINITY)).toBe(true);
  });

  it('[BAND-8] a hold in the middle of a bar takes the rest of it along', () => {
    const one = played(chart('| C7 / "hold" F7 / | G7 |'), {
      calls: [[6000, { kind: 'release' }]],
      fills: false,
    });
    expect(inBar(one, 0, 'bass')).toEqual([0, 1, 2]);
    expect(inBar(one, 1, 'bass')).toEqual([0, 1, 2, 3]);
    expect(barTimes(one.performance, 1).startMs).toBe(6500);
  });
});

describe('fills and the top', () => {
  const SNARE_AND_TOMS = [DRUMS.snare, DRUMS.highTom, DRUMS.midTom, DRUMS.lowTom] as readonly number[];
  const isFill = (one: ReturnType<typeof played>, index: number) => {
    const { startMs } = barTimes(one.performance, index);
    return eventsOfBar(one, index).some(
      ({ midi, atMs, voice }) => voice === 'drums' && SNARE_AND_TOMS.includes(midi) && atMs >= startMs + 1000,
    );
  };
  const hasCrash = (one: ReturnType<typeof played>, index: number) =>
    eventsOfBar(one, index).some(({ midi }) => midi === DRUMS.crash);

  it('[BAND-9] the drums fill at the last bar of the form, and a cymbal marks the top', () => {
    const one = played(chart('| C7 | F7 | G7 | C7 |', { road: 'Head: A x2' }));
    expect([0, 1, 2, 3].map((index) => isFill(one, index))).toEqual([false, false, false, true]);
    expect([3, 4, 5].map((index) => hasCrash(one, index))).toEqual([false, true, false]);
  });

  it('[BAND-9] and before a section', () => {
    const one = played(chart('| C7 | F7 |\n[B]\n| G7 | C7 |', { road: 'Head: A B' }));
    expect([0, 1, 2, 3].map((index) => isFill(one, index))).toEqual([false, true, false, true]);
    expect(hasCrash(one, 2)).toBe(true);
  });

  it('[BAND-9] only where it is wished, but always where it is written', () => {
    const one = played(chart('| C7 | "fill" F7 | G7 | C7 |'), { fills: false });
    expect([0, 1, 2, 3].map((index) => isFill(one, index))).toEqual([false, true, false, false]);
    expect(hasCrash(one, 0)).toBe(false);
  });

  it('[BAND-9] the last bar of a round of a loop fills into the next', () => {
    const road = chart('| C7 | F7 | G7 | C7 |');
    const leg = road.legs[0]?.id ?? '';
    const one = played(road, { calls: [[3000, { kind: 'loop', leg, from: 0, to: 1 }]] });
    const bars = [4, 5].map((index) => isFill(one, index));
    expect(bars).toEqual([false, true]);
  });
});

describe('who plays', () => {
  it('[BAND-10] N.C. silences bass and comping, not the drums', () => {
    const one = played(chart('| C7 | N.C. |'));
    expect(inBar(one, 1, 'bass')).toEqual([]);
    expect(inBar(one, 1, 'comping')).toEqual([]);
    expect(inBar(one, 1, 'drums').length).toBeGreaterThan(3);
  });

  it('[BAND-10] so does a symbol that nobody can read', () => {
    const one = played(chart('| C7 | Hm7x |'));
    expect(inBar(one, 1, 'bass')).toEqual([]);
    expect(inBar(one, 1, 'drums').length).toBeGreaterThan(3);
  });

  it('[BAND-10] in a turn of the drums the others lay out', () => {
    const one = played(chart('| C7 | F7 | G7 | C7 |', { road: 'Fours: A x2 trade 2' }));
    expect([0, 1, 2, 3].map((index) => inBar(one, index, 'bass').length)).toEqual([4, 4, 0, 0]);
    expect(inBar(one, 2, 'drums').length).toBeGreaterThan(4);
  });

  it('[BAND-10] a pick-up and a tacet are the soloist’s', () => {
    const one = played(chart('| "pick-up" C7 | F7 | "tacet 2" G7 | C7 |'));
    expect(eventsOfBar(one, 0).filter(({ voice }) => voice !== 'click')).toEqual([]);
    expect(inBar(one, 1, 'bass')).toHaveLength(4);
    for (const index of [2, 3]) for (const voice of BAND) expect(inBar(one, index, voice)).toEqual([]);
    expect(inBar(one, 4, 'bass')).toHaveLength(4);
  });
});

describe('the manner', () => {
  const two = () => chart('| C7 | C7 ||\n| C7 | C7 ||\n| C7 | C7 |');

  it('[BAND-11] a feel that is called holds for its bars, which go by at the same speed', () => {
    const one = played(two(), {
      feel: 'straight 8ths',
      fills: false,
      calls: [[3000, { kind: 'feel', feel: 'half' }]],
    });
    const snares = (index: number) =>
      placesOf(
        eventsOfBar(one, index).filter(({ midi }) => midi === DRUMS.snare),
        'drums',
        barTimes(one.performance, index).startMs,
      );
    // The backbeat on two and four; in half-time on three: common practice, no source.
    expect(snares(1)).toEqual([1, 3]);
    expect(snares(2)).toEqual([2]);
    expect(barTimes(one.performance, 3).startMs).toBe(FIRST_MS + 6000);
  });

  it('[BAND-11] in double-time the bass walks in eighths', () => {
    const one = played(two(), { calls: [[3000, { kind: 'feel', feel: 'double' }]] });
    expect(inBar(one, 1, 'bass')).toEqual([0, 1, 2, 3]);
    expect(inBar(one, 2, 'bass')).toEqual([0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5]);
  });

  it('[BAND-11] a written feel holds from its bar on; in two and in four say how the bass moves', () => {
    const one = played(chart('| C7 | "in 2" C7 | "in 4" C7 | "bossa" C7 |'), { fills: false });
    expect([0, 1, 2].map((index) => inBar(one, index, 'bass'))).toEqual([
      [0, 1, 2, 3],
      [0, 2],
      [0, 1, 2, 3],
    ]);
    // Bossa bass: one, and of two, three, and of four, straight. Common practice, no source.
    expect(inBar(one, 3, 'bass')).toEqual([0, 1.5, 2, 3.5]);
  });

  it('[BAND-11] a feel that is called keeps the style under it', () => {
    const one = played(chart('| C7 ||\n| "bossa" C7 ||\n| C7 |'), {
      fills: false,
      calls: [[2700, { kind: 'feel', feel: 'double' }]],
    });
    const sticks = (index: number) => eventsOfBar(one, index).filter(({ midi }) => midi === DRUMS.sideStick);
    expect(sticks(0)).toEqual([]);
    expect(sticks(1).length).toBeGreaterThan(1);
  });

  const loudest = (one: ReturnType<typeof played>, index: number) =>
    Math.max(
      ...eventsOfBar(one, index)
        .filter(({ voice }) => voice === 'comping')
        .map(({ velocity }) => velocity),
    );

  it('[BAND-12] dynamics scale all but the click', () => {
    const one = played(chart('| C7 | "pp" C7 | "ff" C7 | C7 |'), { fills: false });
    const [plain, soft, loud, on] = [0, 1, 2, 3].map((index) => loudest(one, index)) as [
      number,
      number,
      number,
      number,
    ];
    expect(soft).toBeLessThan(plain);
    expect(loud).toBeGreaterThan(plain);
    expect(on).toBe(loud);
    const clicks = [1, 2].map((index) => eventsOfBar(one, index).filter(({ voice }) => voice === 'click'));
    expect(clicks[0]?.map(({ velocity }) => velocity)).toEqual(clicks[1]?.map(({ velocity }) => velocity));
  });

  it('[BAND-12] down is down until it is called as written, build grows', () => {
    const bars = Array.from({ length: 16 }, () => '| C7 ').join('');
    const down = played(chart(`${bars}|`), {
      calls: [
        [5000, { kind: 'dynamic', dynamic: 'down' }],
        [9000, { kind: 'dynamic', dynamic: 'as written' }],
      ],
    });
    expect(loudest(down, 2)).toBeLessThan(loudest(down, 0));
    expect(loudest(down, 4)).toBe(loudest(down, 0));
    const build = played(chart(`${bars}|`), { calls: [[5000, { kind: 'dynamic', dynamic: 'build' }]] });
    const levels = [0, 2, 5, 8, 11, 14].map((index) => loudest(build, index));
    expect(levels[4]).toBeGreaterThan(levels[2] ?? 0);
    expect(levels[2]).toBeGreaterThan(levels[0] ?? 0);
    expect(levels[5]).toBe(levels[4]);
  });

  it('[BAND-13] after a modulation everything is in the new key', () => {
    const road = chart('| C7 | F7 |', { road: 'Head: A x2', head: 'key: C' });
    const plain = played(road);
    const up = played(road, { calls: [[3000, { kind: 'up', semitones: 2 }]] });
    expect(eventsOfBar(up, 0)).toEqual(eventsOfBar(plain, 0));
    const classes = (one: ReturnType<typeof played>, index: number, by: number) =>
      new Set(pitches(eventsOfBar(one, index), 'comping').map((midi) => (midi + by) % 12));
    expect(classes(up, 2, 0)).toEqual(classes(plain, 2, 2));
    expect((pitches(eventsOfBar(up, 2), 'bass')[0] ?? 0) % 12).toBe(2);
  });

  it('[BAND-14] short cuts, let ring lets sound to the bar’s end', () => {
    const one = played(chart('| "short" C7 | "let ring" C7 |'), { fills: false });
    const first = (index: number) =>
      eventsOfBar(one, index).find(({ voice }) => voice === 'comping')?.lengthMs ?? 0;
    expect(first(0)).toBeLessThan(250);
    expect(first(1)).toBeCloseTo(2000, 6);
  });
});

describe('cues that end', () => {
  it('[BAND-3] nothing sounds after a stop', () => {
    const one = played(chart('| C7 | F7 |'), { calls: [[3000, { kind: 'stop' }]] });
    const all = bandEvents(one.performance, one.band, 0, 60_000);
    expect(Math.max(...all.map(({ atMs }) => atMs))).toBeLessThan(3600);
    expect(Math.max(...all.map(({ atMs, lengthMs }) => atMs + lengthMs))).toBeLessThanOrEqual(3600);
  });
});
