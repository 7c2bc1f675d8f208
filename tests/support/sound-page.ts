import { type AudioMapping, addLook, beginMapping, sharedAt } from '../../client/sound/audio-clock.ts';
import { createBandOutput, limiterLatencySec } from '../../client/sound/band-output.ts';
import { openBandSound, readingOf } from '../../client/sound/band-sound.ts';
import { heardAt } from '../../client/sound/heard-at.ts';
import { renderOneShots } from '../../client/sound/render-one-shots.ts';
import type { BandMix } from '../../client/state/band-sound.ts';
import type { NoteEvent, Voice } from '../../common/band/note-event.ts';
import { audioSec, type LocalMs, localMs, sharedMs } from '../../common/units.ts';

const part = { volume: 0.7, muted: false, solo: false };
const MIX: BandMix = { master: 0.3, parts: { click: part, bass: part, comping: part, drums: part } };

const SAMPLE_RATE = 44_100;
const WINDOW_SEC = 2;
const AHEAD_SEC = 0.5;

/** Runs in a browser's page: what the sound of the practice band is like there. */
const soundPage = {
  /** Each one-shot: its loudest sample, and after how many ms it is first louder than a fiftieth of that. */
  oneShots: async () => {
    const shots = await renderOneShots();
    return Object.entries(shots).flatMap(([voice, all]) =>
      all.map(({ midi, samples, sampleRate }) => {
        const peak = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
        const first = samples.findIndex((sample) => Math.abs(sample) > peak / 50);
        return { voice: voice as Voice, midi, peak, beginsMs: (first / sampleRate) * 1000 };
      }),
    );
  },

  /**
   * Plays the events offline, through limiter and all. Gives for each the time in ms at which it is first heard, within
   * 20 ms around its own, and the loudest sample of all.
   */
  onsets: async (events: readonly NoteEvent[], seconds: number) => {
    const context = new OfflineAudioContext(1, seconds * SAMPLE_RATE, SAMPLE_RATE);
    const latencySec = await limiterLatencySec(SAMPLE_RATE);
    const output = createBandOutput(context, await renderOneShots(), { ...MIX, master: 1 }, latencySec);
    const hand = (fromSec: number, untilSec: number) => {
      for (const event of events) {
        const atSec = event.atMs / 1000;
        if (atSec >= fromSec && atSec < untilSec) output.play(event, audioSec(atSec));
      }
    };
    // As it is live: notes are handed over shortly before they are due.
    hand(0, WINDOW_SEC + AHEAD_SEC);
    for (let sec = WINDOW_SEC; sec < seconds; sec += WINDOW_SEC) {
      const handOver = context.suspend(sec).then(() => {
        hand(sec + AHEAD_SEC, sec + WINDOW_SEC + AHEAD_SEC);
        return context.resume();
      });
      handOver.catch((error: unknown) => reportError(error));
    }
    const samples = (await context.startRendering()).getChannelData(0);
    let peak = 0;
    for (const sample of samples) peak = Math.max(peak, Math.abs(sample));
    const onsets = events.map(({ atMs }) => {
      const from = Math.max(0, Math.round(((atMs - 20) / 1000) * SAMPLE_RATE));
      const near = samples.subarray(from, from + Math.round(0.04 * SAMPLE_RATE));
      const loudest = near.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
      const first = near.findIndex((sample) => Math.abs(sample) > loudest / 50);
      return ((from + first) / SAMPLE_RATE) * 1000;
    });
    return { onsets, peak };
  },

  /**
   * Ties the sound's clock to time for so long, live, as the practice band does. Gives what each look saw, and when by
   * the mapping the sound is heard of a moment that far ahead of the look.
   */
  clocks: async (seconds: number, aheadSec: number) => {
    const context = new AudioContext({ latencyHint: 'interactive' });
    await context.resume();
    const looks: { audioSec: number; sharedMs: number; saysMs: number }[] = [];
    let mapping: AudioMapping | null = null;
    const endMs = performance.now() + seconds * 1000;
    while (performance.now() < endMs) {
      await wait(40);
      const { audio, local } = heardAt(readingOf(context), localMs(performance.now()));
      const seen = { audio, shared: sharedOf(local) };
      mapping = mapping ? addLook(mapping, seen) : beginMapping(seen);
      const saysMs = sharedAt(mapping, audioSec(audio + aheadSec));
      looks.push({ audioSec: audio, sharedMs: seen.shared, saysMs });
    }
    await context.close();
    return looks;
  },

  /** Opens the sound live for so long. Gives the windows of time for which notes were asked, in order. */
  live: async (seconds: number) => {
    const windows: [fromMs: number, untilMs: number][] = [];
    const sound = await openBandSound({
      localNow: () => performance.now(),
      sharedAtLocal: sharedOf,
      eventsBetween: (fromMs, untilMs) => {
        windows.push([fromMs, untilMs]);
        return [{ atMs: fromMs, lengthMs: 50, voice: 'click', midi: 76, velocity: 90 }];
      },
      mix: MIX,
      laterMs: () => 0,
    });
    await wait(seconds * 1000);
    await sound.close();
    return windows;
  },
};

const wait = (ms: number) => new Promise((done) => setTimeout(done, ms));
const sharedOf = (local: LocalMs) => sharedMs(local + 1_000_000);

export type SoundPage = typeof soundPage;

Object.assign(window, { soundPage });
