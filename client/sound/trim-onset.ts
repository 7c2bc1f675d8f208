/** Quieter than this, against the loudest sample, is not heard as the beginning. */
const THRESHOLD = 0.02;

/**
 * The samples from where the sound begins: what comes before its first sample above a fiftieth of the peak is cut off, so
 * that a buffer that is started at a time is heard at that time. Silence comes back as it is.
 */
export const trimOnset = (samples: Float32Array): Float32Array => {
  let peak = 0;
  for (const sample of samples) peak = Math.max(peak, Math.abs(sample));
  if (peak === 0) return samples;
  const first = samples.findIndex((sample) => Math.abs(sample) >= peak * THRESHOLD);
  return samples.slice(first);
};

/** The samples as loud as a peak of `peak`; silence stays silent. */
export const withPeak = (samples: Float32Array, peak: number): Float32Array => {
  let loudest = 0;
  for (const sample of samples) loudest = Math.max(loudest, Math.abs(sample));
  return loudest === 0 ? samples : samples.map((sample) => (sample / loudest) * peak);
};
