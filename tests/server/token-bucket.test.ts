import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LIMITS } from '../../common/protocol/limits.ts';
import { addressAllowance, addressGroup, isLoopback } from '../../server/address-allowance.ts';
import { fullBucket, isFull, spend, type TokenBucket } from '../../server/token-bucket.ts';

describe('what one connection may send', () => {
  const MESSAGES = { burst: LIMITS.messageBurst, everyMs: 1_000 / LIMITS.messagesPerSecond };

  it.each([
    ['evenly', 1, 1],
    // A tablet that comes back asks ten times at once for the time.
    ['in heaps, by a link that stalls three seconds at a time', 20, 10],
  ])(
    'is enough for ten minutes of taps at 400 bpm with the clock’s pings beside them, %s',
    (_, heap, pings) => {
      const tapMs = 60_000 / 400;
      let bucket: TokenBucket | null = fullBucket(MESSAGES, 0);
      for (let nth = heap; nth * tapMs < 600_000; nth += heap) {
        for (let message = 0; message < heap + pings && bucket; message++) {
          bucket = spend(bucket, MESSAGES, nth * tapMs);
        }
      }
      expect(bucket).not.toBeNull();
    },
  );
});

describe('a token bucket', () => {
  it('never gives more than its burst and what has come since', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 50 }),
        fc.integer({ min: 1, max: 1_000 }),
        fc.array(fc.integer({ min: 0, max: 500 }), { maxLength: 200 }),
        (burst, everyMs, waits) => {
          const allowance = { burst, everyMs };
          let nowMs = 0;
          let bucket: TokenBucket = fullBucket(allowance, nowMs);
          let spent = 0;
          for (const wait of waits) {
            nowMs += wait;
            const after = spend(bucket, allowance, nowMs);
            if (after === null) continue;
            bucket = after;
            spent++;
          }
          expect(spent).toBeLessThanOrEqual(burst + nowMs / everyMs);
        },
      ),
    );
  });

  it('gives its burst at once, then one after every interval', () => {
    const allowance = { burst: 2, everyMs: 100 };
    const one = spend(fullBucket(allowance, 0), allowance, 0);
    const two = one && spend(one, allowance, 0);
    expect(two && spend(two, allowance, 99)).toBeNull();
    expect(two && spend(two, allowance, 100)).not.toBeNull();
    expect(two && isFull(two, allowance, 199)).toBe(false);
    expect(two && isFull(two, allowance, 200)).toBe(true);
  });
});

describe('an allowance for each address', () => {
  it('counts addresses apart and gives back what time brings', () => {
    const tries = addressAllowance({ burst: 1, everyMs: 1_000 });
    expect(tries.take('10.0.0.1', 0)).toBe(true);
    expect(tries.take('10.0.0.1', 0)).toBe(false);
    expect(tries.has('10.0.0.1', 0)).toBe(false);
    expect(tries.take('10.0.0.2', 0)).toBe(true);
    expect(tries.take('10.0.0.1', 1_000)).toBe(true);
  });

  it('takes the addresses of one IPv6 household for one, and IPv4 for itself', () => {
    expect(addressGroup('2001:db8:1:2:aaaa::1')).toBe(addressGroup('2001:db8:1:2:bbbb:1:2:3'));
    expect(addressGroup('2001:db8:1:3::1')).not.toBe(addressGroup('2001:db8:1:2::1'));
    expect(addressGroup('::ffff:10.0.0.1')).toBe('10.0.0.1');
    expect(addressGroup('fe80::1%eth0')).toBe('fe80:0:0:0');
  });

  it('knows this machine', () => {
    expect(['127.0.0.1', '::1', '::ffff:127.0.0.1'].every(isLoopback)).toBe(true);
    expect(['10.0.0.1', '::2', '192.168.1.127'].some(isLoopback)).toBe(false);
  });
});
