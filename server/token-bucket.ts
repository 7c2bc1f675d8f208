/** How much somebody may do: so many at once after a silence, and one more after every so many ms. */
export interface Allowance {
  readonly burst: number;
  readonly everyMs: number;
}

/** What is left of an allowance, as of `atMs`. */
export interface TokenBucket {
  readonly tokens: number;
  readonly atMs: number;
}

export const fullBucket = (allowance: Allowance, nowMs: number): TokenBucket => ({
  tokens: allowance.burst,
  atMs: nowMs,
});

const refilled = (bucket: TokenBucket, allowance: Allowance, nowMs: number): number =>
  Math.min(allowance.burst, bucket.tokens + Math.max(0, nowMs - bucket.atMs) / allowance.everyMs);

/** The bucket after taking one token out; null where less than one is left. */
export const spend = (bucket: TokenBucket, allowance: Allowance, nowMs: number): TokenBucket | null => {
  const tokens = refilled(bucket, allowance, nowMs);
  return tokens < 1 ? null : { tokens: tokens - 1, atMs: nowMs };
};

/** Whether it would be full again by now, so that it need not be kept. */
export const isFull = (bucket: TokenBucket, allowance: Allowance, nowMs: number): boolean =>
  refilled(bucket, allowance, nowMs) >= allowance.burst;
