import { type AudioSec, audioSec, type SharedMs, sharedMs } from '../../common/units.ts';

/** Shared time at which a moment of the sound's own clock is heard. */
export interface HeardAt {
  readonly audio: AudioSec;
  readonly shared: SharedMs;
}

/** How the sound's clock lies against shared time. Never changed in place. */
export interface AudioMapping {
  /** Shared ms minus audio ms, at `atAudio`. */
  readonly offsetMs: number;
  /** ms by which shared time gains on the sound in a second: crystals differ by up to some hundredths of a ms. */
  readonly driftMsPerSec: number;
  readonly atAudio: AudioSec;
  readonly looks: number;
  /** How far looks are off as a rule, ms. */
  readonly noiseMs: number;
  /** How many looks in a row were far off to the same side: counted up, or down below zero. */
  readonly astray: number;
}

/** One look moves the offset by so much of its error, the drift by less; the first looks weigh more. */
const OFFSET_SHARE = 0.08;
const DRIFT_SHARE = 0.002;
const FASTEST_DRIFT_MS_PER_SEC = 0.5;
/** Farther off than this it is no noise: the output was switched, the tablet slept, shared time has jumped. */
const JUMP_MS = 60;
/** Off by so many times the noise, and by more than so much, a look is astray; after so many in a row the sound has made a step, as it does where it once ran dry. */
const ASTRAY = 4;
const LEAST_STEP_MS = 2;
const STEP_LOOKS = 3;
const NOISE_SHARE = 0.05;

const offsetOf = ({ audio, shared }: HeardAt): number => shared - audio * 1000;

export const beginMapping = (look: HeardAt): AudioMapping => ({
  offsetMs: offsetOf(look),
  driftMsPerSec: 0,
  atAudio: look.audio,
  looks: 1,
  noiseMs: 0,
  astray: 0,
});

const predicted = ({ offsetMs, driftMsPerSec, atAudio }: AudioMapping, audio: AudioSec): number =>
  offsetMs + driftMsPerSec * (audio - atAudio);

/**
 * The mapping after another look at both clocks: an observer of second order, which follows offset and drift and lets
 * the jitter of single looks pass. A look that is far off begins anew, and so do a few that are astray to one side.
 */
export const addLook = (mapping: AudioMapping, look: HeardAt): AudioMapping => {
  const sinceSec = look.audio - mapping.atAudio;
  if (!(sinceSec > 0)) return mapping;
  const expected = predicted(mapping, look.audio);
  const errorMs = offsetOf(look) - expected;
  if (Math.abs(errorMs) > JUMP_MS) return beginMapping(look);
  const isAstray = Math.abs(errorMs) > Math.max(LEAST_STEP_MS, ASTRAY * mapping.noiseMs);
  const side = Math.sign(errorMs);
  const astray = isAstray
    ? side * (side === Math.sign(mapping.astray) ? Math.abs(mapping.astray) + 1 : 1)
    : 0;
  if (Math.abs(astray) >= STEP_LOOKS) {
    // The crystals are the same as before, and so is the noise.
    const { driftMsPerSec, noiseMs } = mapping;
    return { ...beginMapping(look), driftMsPerSec, noiseMs };
  }
  const share = Math.max(OFFSET_SHARE, 1 / (mapping.looks + 1));
  const drift = mapping.driftMsPerSec + (DRIFT_SHARE * errorMs) / Math.max(sinceSec, 0.02);
  return {
    offsetMs: expected + share * errorMs,
    driftMsPerSec: Math.min(FASTEST_DRIFT_MS_PER_SEC, Math.max(-FASTEST_DRIFT_MS_PER_SEC, drift)),
    atAudio: look.audio,
    looks: mapping.looks + 1,
    noiseMs: mapping.noiseMs + NOISE_SHARE * (Math.abs(errorMs) - mapping.noiseMs),
    astray,
  };
};

/** When on the sound's clock a note must begin to be heard at an instant of shared time. */
export const audioAt = (mapping: AudioMapping, atMs: SharedMs): AudioSec => {
  // Twice, since the drift counts from the audio time that is looked for.
  const rough = audioSec((atMs - mapping.offsetMs) / 1000);
  return audioSec((atMs - predicted(mapping, rough)) / 1000);
};

/** The other way round than `audioAt`. */
export const sharedAt = (mapping: AudioMapping, audio: AudioSec): SharedMs =>
  sharedMs(audio * 1000 + predicted(mapping, audio));
