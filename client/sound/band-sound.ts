import { localMs, sharedMs } from '../../common/units.ts';
import type { OpenBandSound } from '../state/band-sound.ts';
import { type AudioMapping, addLook, audioAt, beginMapping } from './audio-clock.ts';
import { createBandOutput, limiterLatencySec } from './band-output.ts';
import { type AudioReading, heardAt } from './heard-at.ts';
import { createScheduler } from './scheduler.ts';

const WAKE_EVERY_MS = 40;

/** What the context tells of its clock now. */
export const readingOf = (context: AudioContext): AudioReading => ({
  currentTime: context.currentTime,
  timestamp: context.getOutputTimestamp?.() ?? null,
  outputLatency: context.outputLatency,
});

/** What Tone brings is loaded when it is wanted and not before. */
const oneShots = () => import('./render-one-shots.ts');

export const fetchOneShots = async (): Promise<void> => {
  await oneShots();
};

/**
 * Makes the practice band heard. To be called from a touch or a key, else browsers keep silent.
 */
export const openBandSound: OpenBandSound = async (parts) => {
  const { localNow, sharedAtLocal, eventsBetween, laterMs } = parts;
  const context = new AudioContext({ latencyHint: 'interactive' });
  // Before anything is waited for: only within the touch does it begin.
  const resumed = context.resume();
  const { renderOneShots } = await oneShots();
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
  const audioFor = (atMs: number) => audioAt(mapping ?? look(), sharedMs(atMs - laterMs()));

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
