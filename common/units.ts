/**
 * Numbers that must not be mixed up carry a brand. A branded number is an ordinary number at run time;
 * arithmetic gives a plain number, which is branded again where its meaning is known.
 */
declare const unit: unique symbol;

/** Milliseconds on the relay's clock (see `clock/`), the same on every tablet. */
export type SharedMs = number & { readonly [unit]: 'SharedMs' };
/** Milliseconds on one tablet's own monotonic clock. */
export type LocalMs = number & { readonly [unit]: 'LocalMs' };
/** Seconds on the clock of a tablet's sound. */
export type AudioSec = number & { readonly [unit]: 'AudioSec' };

export const sharedMs = (ms: number): SharedMs => ms as SharedMs;
export const localMs = (ms: number): LocalMs => ms as LocalMs;
export const audioSec = (seconds: number): AudioSec => seconds as AudioSec;
