import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { follow } from '../../../client/stand/follower.ts';
import type { StandSource } from '../../../client/stand/stand-source.ts';
import type { Where } from '../../../common/stage/place.ts';

/** Frames by hand. */
let asked: FrameRequestCallback[] = [];
const nextFrame = () => {
  const due = asked;
  asked = [];
  for (const run of due) run(0);
};

beforeEach(() => {
  asked = [];
  vi.stubGlobal('requestAnimationFrame', (run: FrameRequestCallback) => asked.push(run));
});
afterEach(() => {
  // The loop ends with the frame in which nobody watches any more.
  nextFrame();
  vi.unstubAllGlobals();
});

const playing = (pulse: number): Where => ({
  state: 'playing',
  place: { leg: 'l', pass: 1, barIndex: Math.floor(pulse / 4), pulse: pulse % 4 },
  bar: Math.floor(pulse / 4),
  bpm: 120,
});

/** A take in which a pulse lasts 500 ms. */
const steady = (asks: number[] = []) =>
  ({
    locate: (tMs: number) => {
      asks.push(tMs);
      return playing(tMs / 500);
    },
  }) as unknown as StandSource;

describe('a follower', () => {
  it('knows where the band is from the moment it is made, before any frame', () => {
    const follower = follow(steady(), () => 2750);
    expect(follower.where()).toMatchObject({ bar: 1, place: { pulse: 1.5 } });
    expect(follower.moment.get().atMs).toBe(2750);
    expect(asked).toHaveLength(0);
  });

  it('asks once a frame for all who watch, and no longer than anybody does', () => {
    const asks: number[] = [];
    let now = 0;
    const follower = follow(steady(asks), () => now);
    const seen: number[] = [];
    const stops = [
      follower.watch((_, tMs) => seen.push(tMs)),
      follower.watch((_, tMs) => seen.push(-tMs)),
      follower.moment.subscribe(() => {}),
    ];
    asks.length = 0;
    now = 16;
    nextFrame();
    expect(asks).toEqual([16]);
    expect(seen).toEqual([16, -16]);
    stops[0]?.();
    stops[0]?.();
    now = 33;
    nextFrame();
    expect(seen).toEqual([16, -16, -33]);
    for (const stop of stops) stop();
    now = 50;
    nextFrame();
    nextFrame();
    expect(asks).toEqual([16, 33]);
    expect(asked).toHaveLength(0);
  });

  it('tells a new moment with the pulse, not with the frame', () => {
    let now = 0;
    const follower = follow(steady(), () => now);
    const told: number[] = [];
    const stop = follower.moment.subscribe(() => told.push(follower.moment.get().atMs));
    for (now = 0; now <= 1010; now += 10) nextFrame();
    expect(told).toEqual([500, 1000]);
    stop();
  });

  it('goes on after everybody had left and somebody came back', () => {
    let now = 0;
    const follower = follow(steady(), () => now);
    follower.watch(() => {})();
    nextFrame();
    const seen: number[] = [];
    const stop = follower.watch((_, tMs) => seen.push(tMs));
    now = 700;
    nextFrame();
    expect(seen).toEqual([700]);
    stop();
  });
});
