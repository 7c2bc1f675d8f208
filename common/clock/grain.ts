/**
 * Browsers round the time they give to pages. While every stamp so far was a whole multiple of 1 ms or of
 * 0.1 ms, the clock counts as that coarse; finer rounding is below all that matters here.
 */
export interface Grain {
  readonly stamps: number;
  /** 1, 0.1 or 0: the coarsest that fits all stamps so far. */
  readonly candidateMs: number;
}

export const unknownGrain: Grain = { stamps: 0, candidateMs: 1 };

/** What is known after one more stamp, ms. */
export const seenStamp = ({ stamps, candidateMs }: Grain, stampMs: number): Grain => {
  let fitsMs = candidateMs;
  if (fitsMs === 1 && !isMultiple(stampMs, 1)) fitsMs = 0.1;
  if (fitsMs === 0.1 && !isMultiple(stampMs, 0.1)) fitsMs = 0;
  return { stamps: stamps + 1, candidateMs: fitsMs };
};

/** The grain in ms once twelve stamps agree on it, until then 0: a few may be round by chance. */
export const grainMs = ({ stamps, candidateMs }: Grain): number => (stamps >= 12 ? candidateMs : 0);

// A rounded stamp comes out of a division, so it is off by some 1e-10; a µs would be a finer grain.
const isMultiple = (ms: number, grain: number): boolean => {
  const steps = ms / grain;
  return Math.abs(steps - Math.round(steps)) * grain < 1e-4;
};
