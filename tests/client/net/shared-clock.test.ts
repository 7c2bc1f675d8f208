import { describe, expect, it } from 'vitest';
import { createSharedClock, type Ping } from '../../../client/net/shared-clock.ts';
import { sleptBetween } from '../../../client/net/slept-between.ts';
import { localMs } from '../../../common/units.ts';

const SHARED_START = 1_700_000_000_000;

/**
 * A tablet, its network and the relay on a time of their own. `real` is true time in ms; the tablet's clock is
 * `real` less what it stood still, shared time is `SHARED_START + real + relayShift`.
 */
const tablet = () => {
  let real = 0;
  let stoodStill = 0;
  let wallStep = 0;
  let up = 3;
  let down = 3;
  let relayShift = 0;
  let epoch = 'boot 1';
  let answering = true;
  let events: { atMs: number; run: () => void }[] = [];
  const sent: Ping[] = [];
  const localNow = () => real - stoodStill + 500.37;
  const at = (atMs: number, run: () => void) => {
    const event = { atMs, run };
    events.push(event);
    return event;
  };
  const clock = createSharedClock({
    localNow,
    wallNow: () => SHARED_START + real + 40 + wallStep,
    send: (ping) => {
      sent.push(ping);
      if (!answering) return true;
      const arrivesMs = real + up;
      const stamp = SHARED_START + arrivesMs + relayShift;
      const pong = { ...ping, t: 'pong', t1: stamp, t2: stamp, epoch } as const;
      at(arrivesMs + down, () => clock.receive(pong, localNow()));
      return true;
    },
    setTimer: (run, afterMs) => at(real + afterMs, run),
    clearTimer: (timer) => {
      events = events.filter((event) => event !== timer);
    },
  });
  const run = (forMs: number) => {
    const untilMs = real + forMs;
    for (;;) {
      const next = events.reduce<(typeof events)[number] | null>(
        (first, event) =>
          event.atMs <= untilMs && (first === null || event.atMs < first.atMs) ? event : first,
        null,
      );
      if (next === null) break;
      events = events.filter((event) => event !== next);
      real = Math.max(real, next.atMs);
      next.run();
    }
    real = untilMs;
  };
  return {
    clock,
    sent,
    run,
    localNow,
    pendingTimers: () => events.length,
    truth: () => SHARED_START + real + relayShift,
    error: () => clock.sharedNow() - (SHARED_START + real + relayShift),
    /** Nothing of the page runs for so long; `frozen` of it its clock stands still, too. */
    sleep: (forMs: number, frozen: number) => {
      real += forMs;
      stoodStill += frozen;
    },
    delays: (upMs: number, downMs: number) => {
      up = upMs;
      down = downMs;
    },
    relay: (is: { answering?: boolean; epoch?: string; shiftMs?: number }) => {
      answering = is.answering ?? answering;
      epoch = is.epoch ?? epoch;
      relayShift = is.shiftMs ?? relayShift;
    },
    stepWall: (byMs: number) => {
      wallStep += byMs;
    },
  };
};

describe('the clock of a tablet', () => {
  it('does not ask before the socket is open, and takes the date of the tablet until it knows', () => {
    const { clock, sent, run, truth } = tablet();
    run(5000);
    expect(sent).toHaveLength(0);
    expect(clock.clock.get()).toEqual({ ready: false, errorMs: null, roundTripMs: null });
    expect(clock.sharedNow()).toBe(truth() + 40);
    expect(clock.readAt(localMs(100))).toBeNull();
  });

  it('asks ten times at 100 ms on connecting, then once a second', () => {
    const { clock, sent, run } = tablet();
    clock.connected();
    run(950);
    expect(sent).toHaveLength(10);
    run(5000);
    expect(sent).toHaveLength(15);
    expect(sent.map(({ n }) => n)).toEqual(sent.map((_, i) => i + 1));
  });

  it('is ready with the first quick pong and then shows shared time', () => {
    const { clock, run, error } = tablet();
    clock.connected();
    run(5.9);
    expect(clock.clock.get().ready).toBe(false);
    run(0.2);
    expect(clock.clock.get().ready).toBe(true);
    expect(clock.clock.get().errorMs).toBeCloseTo(3, 1);
    expect(clock.clock.get().roundTripMs).toBeCloseTo(6, 6);
    expect(error()).toBeCloseTo(0, 1);
  });

  it('is ready after ten pongs, however slow the network is', () => {
    const { clock, run, delays } = tablet();
    delays(80, 80);
    clock.connected();
    run(1050);
    expect(clock.clock.get().ready).toBe(false);
    run(30);
    expect(clock.clock.get().ready).toBe(true);
  });

  it('begins at the estimate without a re-seek, however wrong the guess before was', () => {
    const { clock, run, error, stepWall } = tablet();
    stepWall(3_600_000);
    const jumps: number[] = [];
    clock.onReseek((byMs) => jumps.push(byMs));
    clock.sharedNow();
    clock.connected();
    run(10);
    expect(error()).toBeCloseTo(0, 1);
    expect(jumps).toEqual([]);
  });

  it('tells subscribers when it becomes ready, and then at most once a second', () => {
    const { clock, run } = tablet();
    const states: boolean[] = [];
    clock.clock.subscribe(() => states.push(clock.clock.get().ready));
    clock.connected();
    run(10_000);
    expect(states.filter((ready) => !ready).length).toBeLessThanOrEqual(1);
    expect(states.length).toBeGreaterThan(5);
    expect(states.length).toBeLessThanOrEqual(12);
  });

  it('goes on without the relay, ever less sure, and ready as long as it is sure enough', () => {
    const { clock, run, error, relay } = tablet();
    clock.connected();
    run(30_000);
    const before = clock.clock.get().errorMs ?? 0;
    relay({ answering: false });
    clock.disconnected();
    run(60_000);
    expect(clock.clock.get().ready).toBe(true);
    expect(clock.clock.get().errorMs).toBeGreaterThan(before);
    expect(Math.abs(error())).toBeLessThan(0.5);
  });

  it('after a sleep in which its clock stood still it is not ready until a fresh pong, then right at once', () => {
    const { clock, run, error, sleep, sent } = tablet();
    clock.connected();
    run(30_000);
    clock.sharedNow();
    const jumps: number[] = [];
    clock.onReseek((byMs) => jumps.push(byMs));
    sleep(60_000, 60_000);
    const asked = sent.length;
    clock.woke();
    expect(clock.clock.get().ready).toBe(false);
    expect(sent.length).toBe(asked + 1);
    run(7);
    expect(clock.clock.get().ready).toBe(true);
    expect(error()).toBeCloseTo(0, 1);
    expect(jumps).toHaveLength(1);
    expect(jumps[0]).toBeCloseTo(60_000, -1);
    run(900);
    expect(sent.length).toBeGreaterThanOrEqual(asked + 10);
  });

  it('throws away the pong that was under way when the tablet fell asleep', () => {
    const { clock, run, error, sleep } = tablet();
    clock.connected();
    run(30_000);
    clock.sharedNow();
    // The ping of the second 30 is on its way; its pong is the first thing heard after the sleep.
    run(901);
    sleep(60_000, 60_000);
    run(0);
    expect(clock.clock.get().ready).toBe(false);
    expect(clock.readAt(localMs(31_000))).toBeNull();
    run(10);
    expect(clock.clock.get().ready).toBe(true);
    expect(error()).toBeCloseTo(0, 1);
  });

  it('notices by itself that it slept, when a timer is late', () => {
    const { clock, run, error, sleep } = tablet();
    clock.connected();
    run(30_500);
    clock.sharedNow();
    sleep(60_000, 60_000);
    run(1);
    expect(clock.clock.get().ready).toBe(false);
    run(10);
    expect(clock.clock.get().ready).toBe(true);
    expect(error()).toBeCloseTo(0, 1);
  });

  it('keeps what it knows when its page was stopped and its clock went on', () => {
    const { clock, run, error, sleep } = tablet();
    clock.connected();
    run(30_500);
    clock.sharedNow();
    sleep(60_000, 0);
    clock.woke();
    expect(clock.clock.get().ready).toBe(false);
    expect(Math.abs(error())).toBeLessThan(0.5);
    run(7);
    expect(clock.clock.get().ready).toBe(true);
    expect(clock.readAt(localMs(91_000))?.errorMs).toBeLessThan(4);
  });

  it('does not doubt what it knows after being hidden for a moment, nor when the date is set back', () => {
    const { clock, run, sent, stepWall } = tablet();
    clock.connected();
    run(30_000);
    stepWall(-7_200_000);
    run(500);
    const asked = sent.length;
    clock.woke();
    expect(clock.clock.get().ready).toBe(true);
    expect(sent.length).toBe(asked + 1);
  });

  it('asks anew at once when the clock turns out to have jumped', () => {
    const { clock, run, sent, relay, error } = tablet();
    clock.connected();
    run(20_000);
    clock.sharedNow();
    relay({ shiftMs: 900 });
    const asked = sent.length;
    run(2000);
    expect(sent.length).toBeGreaterThanOrEqual(asked + 10);
    expect(error()).toBeCloseTo(0, 1);
  });

  it('coasts on what it knew when the relay has a new epoch, until the new time is known well enough', () => {
    const { clock, run, relay, delays, error, truth } = tablet();
    clock.connected();
    run(20_000);
    const shift = 1000;
    clock.sharedNow();
    clock.disconnected();
    relay({ epoch: 'boot 2', shiftMs: shift });
    delays(40, 40);
    clock.connected();
    run(90);
    expect(clock.clock.get().ready).toBe(false);
    expect(clock.sharedNow()).toBeCloseTo(truth() - shift, 0);
    run(1100);
    expect(clock.clock.get().ready).toBe(true);
    clock.sharedNow();
    expect(Math.abs(error())).toBeLessThan(1);
  });

  it('never shows a time before the one it showed last while corrections are small', () => {
    const { clock, run, delays } = tablet();
    clock.connected();
    run(10);
    let last = clock.sharedNow();
    for (let i = 0; i < 2000; i++) {
      delays(1 + ((i * 7) % 40), 1 + ((i * 13) % 40));
      run(16.7);
      const now = clock.sharedNow();
      expect(now).toBeGreaterThan(last);
      last = now;
    }
  });

  it('ends its timers when closed', () => {
    const { clock, run, sent, pendingTimers } = tablet();
    clock.connected();
    run(100);
    clock.disconnected();
    clock.close();
    const asked = sent.length;
    run(5000);
    expect(sent).toHaveLength(asked);
    expect(pendingTimers()).toBe(0);
  });
});

describe('what became of a tablet between two looks at its clocks', () => {
  const before = { localMs: 0, wallMs: 1000, waitMs: 1000 };

  it.each([
    ['awake', 1020, 2020],
    ['awake', 3900, 4900],
    ['stopped', 4100, 5100],
    ['frozen', 1020, 62_020],
    ['frozen', 10, 1300],
    ['awake', 1000, 1900],
    ['awake', 1000, 2200],
  ])('is %s after %s ms of its own clock, with the date at %s', (became, localNowMs, wallMs) => {
    expect(sleptBetween(before, { localMs: localNowMs, wallMs })).toBe(became);
  });
});
