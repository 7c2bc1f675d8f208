import { Filter, FMSynth, Frequency, MembraneSynth, MetalSynth, NoiseSynth, Offline, Synth } from 'tone';
import { DRUMS } from '../../common/band/drum-kit.ts';
import type { Voice } from '../../common/band/note-event.ts';
import type { OneShot, OneShots } from './one-shots.ts';
import { trimOnset, withPeak } from './trim-onset.ts';

/** Builds an instrument in the offline context and plays its one note. */
type Strike = () => void;

const SAMPLE_RATE = 44_100;
const PEAK = 0.9;
/** Instruments begin a little after the start, so that nothing of the attack is lost; what is before it is cut off. */
const START_SEC = 0.02;

const render = async (midi: number, seconds: number, strike: Strike, peak = PEAK): Promise<OneShot> => {
  const buffer = await Offline(strike, seconds, 1, SAMPLE_RATE);
  return { midi, samples: withPeak(trimOnset(buffer.getChannelData(0)), peak), sampleRate: SAMPLE_RATE };
};

const pitch = (midi: number): number => Frequency(midi, 'midi').toFrequency();

const bass =
  (midi: number): Strike =>
  () => {
    const warm = new Filter(1400, 'lowpass').toDestination();
    new FMSynth({
      harmonicity: 1,
      modulationIndex: 3,
      envelope: { attack: 0.004, decay: 1.4, sustain: 0.12, release: 0.1 },
      modulationEnvelope: { attack: 0.002, decay: 0.18, sustain: 0.1, release: 0.1 },
    })
      .connect(warm)
      .triggerAttackRelease(pitch(midi), 3.5, START_SEC);
  };

const piano =
  (midi: number): Strike =>
  () => {
    new FMSynth({
      harmonicity: 2,
      modulationIndex: 1.6,
      envelope: { attack: 0.003, decay: 2.2, sustain: 0.1, release: 0.2 },
      modulationEnvelope: { attack: 0.002, decay: 0.5, sustain: 0.15, release: 0.2 },
    })
      .toDestination()
      .triggerAttackRelease(pitch(midi), 4, START_SEC);
  };

const skin =
  (hertz: number, decay: number, octaves = 3): Strike =>
  () => {
    new MembraneSynth({ octaves, pitchDecay: 0.03, envelope: { attack: 0.001, decay, sustain: 0 } })
      .toDestination()
      .triggerAttackRelease(hertz, decay, START_SEC);
  };

const noise =
  (decay: number, hertz: number, kind: BiquadFilterType, attack = 0.001): Strike =>
  () => {
    const coloured = new Filter(hertz, kind).toDestination();
    new NoiseSynth({ noise: { type: 'white' }, envelope: { attack, decay, sustain: 0 } })
      .connect(coloured)
      .triggerAttackRelease(attack + decay, START_SEC);
  };

const metal =
  (hertz: number, decay: number, resonance: number): Strike =>
  () => {
    new MetalSynth({
      harmonicity: 5.1,
      modulationIndex: 28,
      resonance,
      octaves: 1.2,
      envelope: { attack: 0.001, decay, release: 0.1 },
    })
      .toDestination()
      .triggerAttackRelease(hertz, decay, START_SEC);
  };

const block =
  (hertz: number): Strike =>
  () => {
    new Synth({ oscillator: { type: 'sine' }, envelope: { attack: 0.001, decay: 0.05, sustain: 0 } })
      .toDestination()
      .triggerAttackRelease(hertz, 0.05, START_SEC);
  };

const both =
  (...strikes: readonly Strike[]): Strike =>
  () => {
    for (const strike of strikes) strike();
  };

const KIT: readonly (readonly [key: number, seconds: number, strike: Strike, peak: number])[] = [
  [DRUMS.kick, 0.5, skin(52, 0.35, 4), 0.95],
  [DRUMS.snare, 0.35, both(noise(0.18, 1500, 'highpass'), skin(185, 0.1, 1)), 0.8],
  [DRUMS.sideStick, 0.12, both(noise(0.02, 2400, 'bandpass'), block(1650)), 0.7],
  [DRUMS.slap, 0.25, noise(0.12, 2200, 'bandpass'), 0.5],
  [DRUMS.stir, 0.6, noise(0.35, 3200, 'bandpass', 0.12), 0.35],
  [DRUMS.closedHat, 0.15, noise(0.05, 7500, 'highpass'), 0.45],
  [DRUMS.footHat, 0.15, noise(0.035, 6000, 'highpass'), 0.4],
  [DRUMS.openHat, 0.6, noise(0.4, 7000, 'highpass'), 0.45],
  [DRUMS.ride, 1.4, both(metal(310, 1.1, 5200), noise(0.04, 9000, 'highpass')), 0.4],
  [DRUMS.rideBell, 1, metal(420, 0.8, 3600), 0.45],
  [DRUMS.crash, 2, both(metal(260, 1.6, 4200), noise(1.3, 5000, 'highpass')), 0.6],
  [DRUMS.cowbell, 0.3, metal(560, 0.18, 1800), 0.5],
  [DRUMS.lowTom, 0.5, skin(82, 0.35, 1.5), 0.85],
  [DRUMS.midTom, 0.45, skin(120, 0.3, 1.5), 0.85],
  [DRUMS.highTom, 0.4, skin(165, 0.26, 1.5), 0.85],
];
const BLOCKS: readonly (readonly [key: number, hertz: number])[] = [
  [DRUMS.highBlock, 1900],
  [DRUMS.lowBlock, 1250],
];
/** Every fourth semitone is rendered, those between are bent. */
const BASS_KEYS = [29, 33, 37, 41, 45, 49, 53];
const PIANO_KEYS = [48, 52, 56, 60, 64, 68, 72, 76, 80];

const inTurn = async (sounds: readonly (() => Promise<OneShot>)[]): Promise<OneShot[]> => {
  const shots: OneShot[] = [];
  // Offline contexts take Tone's one context in turn.
  for (const sound of sounds) shots.push(await sound());
  return shots;
};

/** All sounds of the practice band, rendered once, offline, each beginning with its first sample. */
export const renderOneShots = async (): Promise<OneShots> => {
  const voices: Readonly<Record<Voice, readonly (() => Promise<OneShot>)[]>> = {
    click: BLOCKS.map(
      ([key, hertz]) =>
        () =>
          render(key, 0.1, block(hertz)),
    ),
    bass: BASS_KEYS.map((key) => () => render(key, 4, bass(key))),
    comping: PIANO_KEYS.map((key) => () => render(key, 4.5, piano(key), 0.5)),
    drums: KIT.map(
      ([key, seconds, strike, peak]) =>
        () =>
          render(key, seconds, strike, peak),
    ),
  };
  return {
    click: await inTurn(voices.click),
    bass: await inTurn(voices.bass),
    comping: await inTurn(voices.comping),
    drums: await inTurn(voices.drums),
  };
};
