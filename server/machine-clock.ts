import { randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';

/** The clocks of this machine. */
export interface MachineClock {
  /** Never steps; goes on over restarts of the process within one epoch. */
  readonly monotonicMs: () => number;
  readonly wallMs: () => number;
  /** Names the machine's start from which `monotonicMs` counts. */
  readonly epoch: string;
}

const bootId = (): string => {
  try {
    return readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim();
  } catch {
    // Only Linux names its starts. Elsewhere each process is an epoch of its own: tablets then measure afresh.
    return randomUUID();
  }
};

export const machineClock = (): MachineClock => {
  // Whole ns fit no double: the part before the start is subtracted in integers, the rest is exact to a ns.
  const startNs = process.hrtime.bigint();
  const startMs = Number(startNs / 1000n) / 1000;
  return {
    monotonicMs: () => startMs + Number(process.hrtime.bigint() - startNs) / 1e6,
    wallMs: () => Date.now(),
    epoch: bootId(),
  };
};
