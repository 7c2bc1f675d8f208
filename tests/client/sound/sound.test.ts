import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type AudioMapping,
  addLook,
  audioAt,
  beginMapping,
  sharedAt,
} from '../../../client/sound/audio-clock.ts';
import { heardAt } from '../../../client/sound/heard-at.ts';
import { masterGain, partGain } from '../../../client/sound/mix.ts';
import { type OneShots, shotFor } from '../../../client/sound/one-shots.ts';
import { createScheduler, LOOK_AHEAD_MS } from '../../../client/sound/scheduler.ts';
import { trimOnset, withPeak } from '../../../client/sound/trim-onset.ts';
import type { BandMix } from '../../../client/state/band-sound.ts';
import { openPracticeSettings } from '../../../client/storage/practice-settings.ts';
import { memoryStore } from '../../../client/storage/stored-json.ts';
import type { NoteEvent } from '../../../common/band/note-event.ts';
import { audioSec, localMs, sharedMs } from '../../../common/units.ts';
import { seededRandom } from '../../support/seeded-random.ts';

describe('the sound’s clock', () => {
  /** Looks every 40 ms for a minute, with jitter up to ±`jitterMs`, at a crystal off by so many parts in a million. */
  const minute = (ppm: number, jitterMs: number) => {
    const random = seededRandom(7);
    const trueShared = (audio: number) => 5000 + audio * 1000 * (1 + ppm / 1e6);
    let mapping: AudioMapping | null = null;
    const errors: number[] = [];
    for (let audio = 0.1; audio < 60; audio += 0.04) {
      const shared = sharedMs(trueShared(audio) + (random() * 2 - 1) * jitterMs);
      const look = { audio: audioSec(audio), shared };
      mapping = mapping ? addLook(mapping, look) : beginMapping(look);
      const ahead = audioSec(audio + 0.2);
      if (audio > 5) errors.push(Math.abs(sharedAt(mapping, ahead) - trueShared(ahead)));
    }
    return errors.sort((a, b) => a - b)[Math.floor(errors.length * 0.99)] ?? Number.NaN;
  };

  it('follows shared time within 3 ms at p99, with a crystal that is off and looks that jitter', () => {
    expect(minute(0, 0)).toBeLessThan(0.01);
    expect(minute(150, 0)).toBeLessThan(0.3);
    expect(minute(100, 5)).toBeLessThan(3);
    expect(minute(-100, 5)).toBeLessThan(3);
  });

  it('leads there and back', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        fc.double({ min: -0.5, max: 0.5, noNaN: true }),
        fc.double({ min: 0, max: 3600, noNaN: true }),
        (offsetMs, driftMsPerSec, at) => {
          const mapping = { offsetMs, driftMsPerSec, atAudio: audioSec(at), looks: 9, noiseMs: 0, astray: 0 };
          const audio = audioSec(at + 1);
          expect(audioAt(mapping, sharedAt(mapping, audio))).toBeCloseTo(audio, 5);
        },
      ),
    );
  });

  it('begins anew where the output has jumped', () => {
    const before = beginMapping({ audio: audioSec(1), shared: sharedMs(1000) });
    const after = addLook(before, { audio: audioSec(2), shared: sharedMs(9000) });
    expect(sharedAt(after, audioSec(2))).toBe(9000);
  });

  it('follows a step of the sound, which ran dry, within a few looks, and lets a single look astray pass', () => {
    const at = (nth: number) => audioSec(1 + nth * 0.04);
    const meant = (nth: number, stepMs: number) => sharedMs(at(nth) * 1000 + stepMs);
    let mapping = beginMapping({ audio: at(0), shared: meant(0, 0) });
    for (let nth = 1; nth < 100; nth++) mapping = addLook(mapping, { audio: at(nth), shared: meant(nth, 0) });
    const once = addLook(mapping, { audio: at(100), shared: meant(100, 9) });
    expect(Math.abs(sharedAt(once, at(101)) - meant(101, 0))).toBeLessThan(1);
    for (let nth = 100; nth < 104; nth++)
      mapping = addLook(mapping, { audio: at(nth), shared: meant(nth, 9) });
    expect(Math.abs(sharedAt(mapping, at(105)) - meant(105, 9))).toBeLessThan(0.5);
  });

  it('believes a browser’s timestamp only where it is sane', () => {
    const now = localMs(10_000);
    const reading = { currentTime: 4, outputLatency: 0.05 };
    const told = heardAt({ ...reading, timestamp: { contextTime: 3.95, performanceTime: 9990 } }, now);
    expect(told).toEqual({ audio: 3.95, local: 9990 });
    for (const timestamp of [
      null,
      {},
      { contextTime: 3.9, performanceTime: 10_400 },
      { contextTime: 0, performanceTime: 0 },
    ]) {
      expect(heardAt({ ...reading, timestamp }, now)).toEqual({ audio: 3.95, local: 10_000 });
    }
    expect(heardAt({ currentTime: 4, outputLatency: undefined, timestamp: null }, now).audio).toBe(4);
  });
});

const note = (atMs: number, lengthMs = 100, midi = 60): NoteEvent => ({
  atMs,
  lengthMs,
  voice: 'comping',
  midi,
  velocity: 80,
});

/** A band whose clock is moved by hand. */
const rehearse = (first: readonly NoteEvent[]) => {
  let nowMs = 0;
  let events = first;
  const begun: { event: NoteEvent; endMs: number }[] = [];
  const scheduler = createScheduler({
    sharedNow: () => sharedMs(nowMs),
    eventsBetween: (from, until) => events.filter(({ atMs }) => atMs >= from && atMs < until),
    play: (event) => {
      const one = { event, endMs: event.atMs + event.lengthMs };
      begun.push(one);
      return {
        endAt: (atMs) => {
          one.endMs = atMs;
        },
      };
    },
  });
  return {
    scheduler,
    goTo: (ms: number) => {
      nowMs = ms;
      scheduler.wake();
    },
    change: (next: readonly NoteEvent[]) => {
      events = next;
      scheduler.replan();
    },
    /** What is heard: notes that are not ended before they begin. */
    heard: () => begun.filter(({ event, endMs }) => endMs > event.atMs),
  };
};

describe('the scheduler', () => {
  it('hands over every note once, however unevenly it wakes, before its time', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: LOOK_AHEAD_MS - 20 }), { minLength: 20, maxLength: 60 }),
        (steps) => {
          const all = Array.from({ length: 400 }, (_, i) => note(i * 25 + 5));
          const band = rehearse(all);
          let at = 0;
          band.goTo(0);
          for (const step of steps) {
            at += step;
            band.goTo(at);
          }
          const due = all.filter(({ atMs }) => atMs < at + LOOK_AHEAD_MS);
          expect(band.heard().map(({ event }) => event)).toEqual(due);
        },
      ),
    );
  });

  it('takes back what has not begun when something is called, and plays what is called instead', () => {
    const band = rehearse([note(50), note(100), note(200)]);
    band.goTo(0);
    band.change([note(50), note(150, 100, 65)]);
    band.goTo(100);
    expect(band.heard().map(({ event }) => [event.atMs, event.midi])).toEqual([
      [50, 60],
      [150, 65],
    ]);
  });

  it('ends a held chord when the release is called', () => {
    const band = rehearse([note(10, Number.POSITIVE_INFINITY)]);
    for (let at = 0; at <= 3000; at += 100) band.goTo(at);
    band.change([note(10, 3490)]);
    expect(band.heard().map(({ endMs }) => endMs)).toEqual([3500]);
  });

  it('ends at once what the band does not play any more', () => {
    const band = rehearse([note(10, 5000)]);
    band.goTo(0);
    band.goTo(150);
    band.change([]);
    expect(band.heard().map(({ endMs }) => endMs)).toEqual([150]);
  });

  it('leaves out what was missed while the page slept', () => {
    const band = rehearse(Array.from({ length: 100 }, (_, i) => note(i * 100 + 50)));
    band.goTo(0);
    band.goTo(5000);
    const times = band.heard().map(({ event }) => event.atMs);
    expect(times.filter((ms) => ms > 250 && ms < 4900)).toEqual([]);
    expect(times).toContain(5050);
  });
});

/** What a tablet begins with. */
const FIRST_MIX: BandMix = openPracticeSettings(memoryStore()).get();

describe('the mix', () => {
  const withPart = (voice: 'bass' | 'drums', more: Partial<BandMix['parts']['bass']>): BandMix => ({
    ...FIRST_MIX,
    parts: { ...FIRST_MIX.parts, [voice]: { ...FIRST_MIX.parts[voice], ...more } },
  });

  it('begins low', () => {
    expect(masterGain(FIRST_MIX)).toBeLessThan(0.15);
    expect(masterGain(FIRST_MIX)).toBeGreaterThan(0);
  });

  it('mutes a part, and all others where one plays solo', () => {
    expect(partGain(withPart('bass', { muted: true }), 'bass')).toBe(0);
    const solo = withPart('drums', { solo: true });
    expect(partGain(solo, 'drums')).toBeGreaterThan(0);
    expect((['click', 'bass', 'comping'] as const).map((voice) => partGain(solo, voice))).toEqual([0, 0, 0]);
  });

  it('never makes a part louder than it is', () => {
    expect(partGain(withPart('bass', { volume: 7 }), 'bass')).toBe(1);
  });
});

describe('sounds', () => {
  it('begin with their first sample', () => {
    const late = Float32Array.from([0, 0.0001, 0, 0.5, -1, 0.2]);
    expect([...trimOnset(late)]).toEqual([0.5, -1, Math.fround(0.2)]);
    expect([...trimOnset(new Float32Array(3))]).toEqual([0, 0, 0]);
    expect(Math.max(...withPeak(late, 0.5).map(Math.abs))).toBe(0.5);
  });

  it('are bent from the nearest pitch, percussion never', () => {
    const shot = (midi: number) => ({ midi, samples: new Float32Array(1), sampleRate: 44_100 });
    const shots: OneShots = {
      click: [],
      bass: [shot(33), shot(37)],
      comping: [],
      drums: [shot(36), shot(38)],
    };
    expect(shotFor(shots, 'bass', 45)).toMatchObject({ shot: { midi: 37 } });
    // An octave is a factor of two, twelve equal semitones: ISO 16, equal temperament.
    expect(shotFor(shots, 'bass', 49)?.rate).toBeCloseTo(2, 12);
    expect(shotFor(shots, 'drums', 38)).toMatchObject({ shot: { midi: 38 }, rate: 1 });
    expect(shotFor(shots, 'comping', 60)).toBeNull();
  });
});
