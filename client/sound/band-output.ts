import type { NoteEvent, Voice } from '../../common/band/note-event.ts';
import type { AudioSec } from '../../common/units.ts';
import type { BandMix } from '../state/band-sound.ts';
import { masterGain, partGain } from './mix.ts';
import { type OneShot, type OneShots, shotFor } from './one-shots.ts';

/** A note on its way out. */
export interface OutputNote {
  readonly endAt: (at: AudioSec) => void;
}

/** What makes the notes heard: parts, then the master, then the limiter, always. */
export interface BandOutput {
  readonly play: (event: NoteEvent, at: AudioSec) => OutputNote;
  readonly setMix: (mix: BandMix) => void;
}

const VOICES: readonly Voice[] = ['click', 'bass', 'comping', 'drums'];
const FADE_SEC = 0.015;
const RELEASE_SEC = 0.04;
const LONGEST_SEC = 60;
/** Nothing comes out louder than this. */
const LIMIT = { thresholdDb: -6, ratio: 20, attackSec: 0.002, releaseSec: 0.1 };

const limiterOf = (context: BaseAudioContext): DynamicsCompressorNode =>
  new DynamicsCompressorNode(context, {
    threshold: LIMIT.thresholdDb,
    knee: 0,
    ratio: LIMIT.ratio,
    attack: LIMIT.attackSec,
    release: LIMIT.releaseSec,
  });

/**
 * How much later than it goes in sound comes out of the limiter: it looks ahead for as long as its browser likes. Measured
 * by a click through one of its own.
 */
export const limiterLatencySec = async (sampleRate: number): Promise<number> => {
  const context = new OfflineAudioContext(1, Math.ceil(sampleRate / 20), sampleRate);
  const limiter = limiterOf(context);
  limiter.connect(context.destination);
  const click = new AudioBuffer({ length: 1, sampleRate });
  click.getChannelData(0).set([1]);
  const source = new AudioBufferSourceNode(context, { buffer: click });
  source.connect(limiter);
  source.start(0);
  const samples = (await context.startRendering()).getChannelData(0);
  const first = samples.findIndex((sample) => Math.abs(sample) > 0.01);
  return first < 0 ? 0 : first / sampleRate;
};

/** Percussion rings as it is; the others end when their notes do. */
const isCut = (voice: Voice): boolean => voice === 'bass' || voice === 'comping';

/**
 * @param context live, or offline for checks
 * @param latencySec of the limiter: notes begin earlier by so much, to be heard at their time
 */
export const createBandOutput = (
  context: BaseAudioContext,
  shots: OneShots,
  first: BandMix,
  latencySec: number,
): BandOutput => {
  const limiter = limiterOf(context);
  limiter.connect(context.destination);
  const master = new GainNode(context, { gain: masterGain(first) });
  master.connect(limiter);
  const parts = new Map(
    VOICES.map((voice) => {
      const gain = new GainNode(context, { gain: partGain(first, voice) });
      gain.connect(master);
      return [voice, gain];
    }),
  );

  const buffers = new Map<OneShot, AudioBuffer>();
  const bufferOf = (shot: OneShot): AudioBuffer => {
    let buffer = buffers.get(shot);
    if (!buffer) {
      buffer = new AudioBuffer({ length: shot.samples.length, sampleRate: shot.sampleRate });
      buffer.getChannelData(0).set(shot.samples);
      buffers.set(shot, buffer);
    }
    return buffer;
  };

  const play = ({ voice, midi, velocity, lengthMs }: NoteEvent, at: AudioSec): OutputNote => {
    const found = shotFor(shots, voice, midi);
    const part = parts.get(voice);
    if (!found || !part) return { endAt: () => {} };
    const loud = (velocity / 127) ** 1.5;
    const envelope = new GainNode(context, { gain: loud });
    const source = new AudioBufferSourceNode(context, {
      buffer: bufferOf(found.shot),
      playbackRate: found.rate,
    });
    source.connect(envelope).connect(part);
    source.onended = () => envelope.disconnect();
    const startSec = Math.max(at - latencySec, context.currentTime);
    source.start(startSec);
    const endAt = (wanted: AudioSec): void => {
      // A chord that is held for ever dies away in its buffer.
      const endSec = Math.min(Math.max(wanted - latencySec, context.currentTime), startSec + LONGEST_SEC);
      envelope.gain.cancelScheduledValues(0);
      if (endSec <= startSec) {
        envelope.gain.setValueAtTime(0, 0);
        source.stop();
        return;
      }
      envelope.gain.setValueAtTime(loud, endSec);
      envelope.gain.linearRampToValueAtTime(0, endSec + RELEASE_SEC);
      source.stop(endSec + RELEASE_SEC);
    };
    if (isCut(voice) && Number.isFinite(lengthMs)) endAt((at + lengthMs / 1000) as AudioSec);
    return { endAt };
  };

  const setMix = (mix: BandMix): void => {
    const now = context.currentTime;
    master.gain.setTargetAtTime(masterGain(mix), now, FADE_SEC);
    for (const [voice, gain] of parts) gain.gain.setTargetAtTime(partGain(mix, voice), now, FADE_SEC);
  };

  return { play, setMix };
};
