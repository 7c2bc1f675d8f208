import type { NoteEvent } from '../../common/band/note-event.ts';
import { type LocalMs, localMs, type SharedMs, sharedMs } from '../../common/units.ts';
import { type AudioMapping, addLook, audioAt, beginMapping } from './audio-clock.ts';
import { createBandOutput, limiterLatencySec } from './band-output.ts';
import { heardAt } from './heard-at.ts';
import type { Mix } from './mix.ts';
import { createScheduler } from './scheduler.ts';

/** What the sound needs from outside. */
export interface BandSoundParts {
  readonly localNow: () => number;
  /** Shared time at a moment of this tablet's clock. */
  readonly sharedAtLocal: (local: LocalMs) => SharedMs;
  /** What is played from one instant up to another, by what has been called so far. */
  readonly eventsBetween: (fromMs: number, untilMs: number) => readonly NoteEvent[];
  readonly mix: Mix;
  /** From a tap calibration: how much later than the browser says a sound is heard, ms. */
  readonly laterMs: number;
}

export interface BandSound {
  /** A cue, a tap or an edit: the plan has changed. */
  readonly replan: () => void;
  readonly setMix: (mix: Mix) => void;
  /** Ends all that sounds and lets go of the audio device. */
  readonly close: () => Promise<void>;
}

const WAKE_EVERY_MS = 40;

const readingOf = (context: AudioContext) => ({
  currentTime: context.currentTime,
  timestamp: context.getOutputTimestamp?.() ?? null,
  outputLatency: context.outputLatency,
});

/**
 * Makes the practice band heard. To be called from a touch or a key, else browsers keep silent. What Tone brings is
 * loaded here and not before.
 */
export const openBandSound = async (parts: BandSoundParts): Promise<BandSound> => {
  const { localNow, sharedAtLocal, eventsBetween, laterMs } = parts;
  const context = new AudioContext({ latencyHint: 'interactive' });
  // Before anything is waited for: only within the touch does it begin.
  const resumed = context.resume();
  const { renderOneShots } = await import('./render-one-shots.ts');
  const shots = await renderOneShots();
  const latencySec = await limiterLatencySec(context.sampleRate);
  await resumed;
  const output = createBandOutput(context, shots, parts.mix, latencySec);

  let mapping: AudioMapping | null = null;
  const look = (): AudioMapping => {
    const { audio, local } = heardAt(readingOf(context), localMs(localNow()));
    const seen = { audio, shared: sharedAtLocal(local) };
    mapping = mapping ? addLook(mapping, seen) : beginMapping(seen);
    return mapping;
  };
  const audioFor = (atMs: number) => audioAt(mapping ?? look(), sharedMs(atMs - laterMs));

  const scheduler = createScheduler({
    sharedNow: () => sharedAtLocal(localMs(localNow())),
    eventsBetween,
    play: (event) => {
      const note = output.play(event, audioFor(event.atMs));
      return { endAt: (atMs) => note.endAt(audioFor(atMs)) };
    },
  });

  const timer = setInterval(() => {
    look();
    if (context.state === 'running') scheduler.wake();
  }, WAKE_EVERY_MS);

  return {
    replan: scheduler.replan,
    setMix: output.setMix,
    close: async () => {
      clearInterval(timer);
      scheduler.stop();
      await context.close();
    },
  };
};
