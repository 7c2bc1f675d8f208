/** Both clocks of a tablet at one moment, and when it meant to look at them again. */
export interface Look {
  readonly localMs: number;
  readonly wallMs: number;
  /** ms until the next look. */
  readonly waitMs: number;
}

/** A look that is late by more than this was not just a busy page, ms. */
const STOPPED_MS = 3000;
/** The wall clock is set a little now and then; more than this is not that, ms. */
const PARTED_MS = 250;

/**
 * What became of the tablet since it last looked:
 * - `frozen`: its monotonic clock stood still, as it does on most systems while they sleep (the wall clock went on
 *   alone), so all that is known about it is void;
 * - `stopped`: it slept or its page was stopped, but its clock went on;
 * - `awake`.
 */
export const sleptBetween = (
  before: Look,
  now: Pick<Look, 'localMs' | 'wallMs'>,
): 'awake' | 'stopped' | 'frozen' => {
  const localPassedMs = now.localMs - before.localMs;
  if (now.wallMs - before.wallMs - localPassedMs > PARTED_MS) return 'frozen';
  return localPassedMs - before.waitMs > STOPPED_MS ? 'stopped' : 'awake';
};
