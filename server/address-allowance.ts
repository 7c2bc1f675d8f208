import { type Allowance, fullBucket, isFull, spend, type TokenBucket } from './token-bucket.ts';

/** One allowance for each address; buckets that are full again are forgotten, so that it stays small. */
export interface AddressAllowance {
  /** Takes one; false where this address has nothing left. */
  readonly take: (address: string, nowMs: number) => boolean;
  /** Whether one is left, without taking it. */
  readonly has: (address: string, nowMs: number) => boolean;
}

/** A household's IPv6 addresses share the first 64 bits; an IPv4 address may come wrapped in IPv6. */
export const addressGroup = (address: string): string => {
  const plain = address.replace(/^::ffff:/i, '');
  if (!plain.includes(':')) return plain;
  const [head = '', tail = ''] = plain.split('%')[0]?.split('::') ?? [];
  const left = head === '' ? [] : head.split(':');
  const right = tail === '' ? [] : tail.split(':');
  const zeros = Array<string>(Math.max(0, 8 - left.length - right.length)).fill('0');
  return [...left, ...zeros, ...right].slice(0, 4).join(':');
};

/** Programs of this machine, and everybody where a proxy on this machine stands in front. */
export const isLoopback = (address: string): boolean =>
  address === '::1' || /^(::ffff:)?127\./i.test(address);

const KEPT = 10_000;

export const addressAllowance = (allowance: Allowance): AddressAllowance => {
  const buckets = new Map<string, TokenBucket>();
  const forget = (nowMs: number) => {
    for (const [group, bucket] of buckets) if (isFull(bucket, allowance, nowMs)) buckets.delete(group);
  };
  const spent = (group: string, nowMs: number) =>
    spend(buckets.get(group) ?? fullBucket(allowance, nowMs), allowance, nowMs);
  return {
    has: (address, nowMs) => spent(addressGroup(address), nowMs) !== null,
    take: (address, nowMs) => {
      const group = addressGroup(address);
      const after = spent(group, nowMs);
      if (after === null) return false;
      if (buckets.size >= KEPT) forget(nowMs);
      buckets.set(group, after);
      return true;
    },
  };
};
