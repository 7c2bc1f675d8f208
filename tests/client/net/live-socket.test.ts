import { beforeEach, describe, expect, it, vi } from 'vitest';
import { type LiveConnection, type LiveSocket, openLive } from '../../../client/net/live-socket.ts';
import { countingIds } from '../../../common/ids.ts';
import { CLOSE_CODES } from '../../../common/protocol/close-codes.ts';
import { sentenceOf } from '../../../common/protocol/close-sentences.ts';

class FakeSocket implements LiveSocket {
  onopen: (() => void) | null = null;
  onmessage: ((event: { readonly data: unknown }) => void) | null = null;
  onclose: ((event: { readonly code: number; readonly reason?: string }) => void) | null = null;
  onerror: (() => void) | null = null;
  readonly sent: Record<string, unknown>[] = [];
  closed = false;
  readonly send = (text: string) => {
    this.sent.push(JSON.parse(text));
  };
  readonly close = () => {
    this.closed = true;
  };
  say(message: unknown): void {
    this.onmessage?.({ data: JSON.stringify(message) });
  }
}

const PONG = { t: 'pong', n: 1, t0: 0, t1: 5, t2: 5, epoch: 'e' };

describe('the live socket', () => {
  let sockets: FakeSocket[];
  let clock: { connected: () => void; disconnected: () => void; receive: () => void; woke: () => void };
  let live: LiveConnection;
  const last = () => sockets.at(-1) as FakeSocket;
  const state = () => live.state.get().state;

  beforeEach(() => {
    vi.useFakeTimers();
    sockets = [];
    clock = { connected: vi.fn(), disconnected: vi.fn(), receive: vi.fn(), woke: vi.fn() };
    live = openLive({
      open: () => {
        sockets.push(new FakeSocket());
        return last();
      },
      nowMs: () => Date.now(),
      after: (ms, run) => {
        const timer = setTimeout(run, ms);
        return () => clearTimeout(timer);
      },
      makeId: countingIds('c'),
      random: () => 0.5,
      clock,
    });
  });

  it('is being found, then on, and tells the clock', () => {
    expect(state()).toBe('finding');
    last().onopen?.();
    expect(state()).toBe('on');
    expect(clock.connected).toHaveBeenCalledOnce();
  });

  it('is away when nothing answers for three seconds after the page was opened', () => {
    vi.advanceTimersByTime(3001);
    expect(state()).toBe('away');
  });

  it('gives an answered call as called, with the time the relay stamped', async () => {
    last().onopen?.();
    const answer = live.call({ kind: 'lastChorus' });
    expect(last().sent).toEqual([{ t: 'call', id: 'c1', cue: { kind: 'lastChorus' } }]);
    last().say({ t: 'called', id: 'c1', cue: { kind: 'lastChorus' }, calledAtMs: 123 });
    expect(await answer).toEqual({
      ok: true,
      value: { id: 'c1', cue: { kind: 'lastChorus' }, calledAtMs: 123 },
    });
  });

  it('gives a refused call with the relay’s own words', async () => {
    last().onopen?.();
    const answer = live.takeBack('c0');
    expect(last().sent).toEqual([{ t: 'takeBack', id: 'c1', cue: 'c0' }]);
    last().say({ t: 'refused', id: 'c1', why: 'landed', words: 'It has landed.' });
    expect(await answer).toEqual({ ok: false, error: { why: 'landed', words: 'It has landed.' } });
  });

  it('refuses a call at once, in words, while the relay is away', async () => {
    const answer = await live.call({ kind: 'oneMore' });
    expect(answer).toMatchObject({ ok: false, error: { why: 'away' } });
    expect(last().sent).toEqual([]);
  });

  it('says so when an answer does not come', async () => {
    last().onopen?.();
    const answer = live.call({ kind: 'oneMore' });
    vi.advanceTimersByTime(4001);
    expect(await answer).toMatchObject({ ok: false, error: { why: 'timeout' } });
  });

  it('passes the baton, and says done when the relay has done it', async () => {
    last().onopen?.();
    const answer = live.lead({ baton: 'bea', taps: null });
    expect(last().sent).toEqual([{ t: 'lead', id: 'c1', baton: 'bea', taps: null }]);
    last().say({ t: 'done', id: 'c1' });
    expect(await answer).toEqual({ ok: true, value: null });
    const refused = live.lead({ locked: true });
    last().say({ t: 'refused', id: 'c2', why: 'notAllowed', words: 'Only a leader can do that.' });
    expect(await refused).toMatchObject({ ok: false, error: { why: 'notAllowed' } });
  });

  it('refuses to pass the baton at once, in words, while the relay is away', async () => {
    expect(await live.lead({ baton: 'bea' })).toMatchObject({ ok: false, error: { why: 'away' } });
    expect(last().sent).toEqual([]);
  });

  it('sends what was not answered again, under its id, when the connection is back in time', async () => {
    last().onopen?.();
    const answers = [live.call({ kind: 'oneMore' }), live.takeBack('c0'), live.lead({ baton: null })];
    last().say({ t: 'refused', id: 'c2', why: 'landed', words: 'It has landed.' });
    last().onclose?.({ code: 1006 });
    vi.advanceTimersByTime(1000);
    last().onopen?.();
    expect(last().sent).toEqual([
      { t: 'call', id: 'c1', cue: { kind: 'oneMore' } },
      { t: 'lead', id: 'c3', baton: null },
    ]);
    last().say({ t: 'called', id: 'c1', cue: { kind: 'oneMore' }, calledAtMs: 9 });
    last().say({ t: 'done', id: 'c3' });
    expect((await Promise.all(answers)).map(({ ok }) => ok)).toEqual([true, false, true]);
  });

  it('says so, and sends nothing again, when the connection is back too late', async () => {
    last().onopen?.();
    const answer = live.call({ kind: 'oneMore' });
    last().onclose?.({ code: 1006 });
    vi.advanceTimersByTime(4001);
    expect(await answer).toMatchObject({ ok: false, error: { why: 'timeout' } });
    last().onopen?.();
    expect(last().sent).toEqual([]);
  });

  it('settles what waits when the relay turns the page away, and when it is closed', async () => {
    last().onopen?.();
    const turned = live.call({ kind: 'oneMore' });
    last().onclose?.({ code: CLOSE_CODES.keyRenewed });
    expect(await turned).toMatchObject({ ok: false, error: { why: 'timeout' } });
    expect(await live.lead({ baton: null })).toMatchObject({ ok: false, error: { why: 'closed' } });
  });

  it('takes three seconds without an answer to a ping as gone, and comes back by itself', () => {
    last().onopen?.();
    expect(live.ping({ t: 'ping', n: 1, t0: 0 })).toBe(true);
    vi.advanceTimersByTime(2999);
    expect(state()).toBe('on');
    vi.advanceTimersByTime(2);
    expect(state()).toBe('away');
    expect(sockets[0]?.closed).toBe(true);
    vi.advanceTimersByTime(250);
    expect(sockets).toHaveLength(2);
    last().onopen?.();
    expect(state()).toBe('on');
  });

  it('counts the silence from the first unanswered ping, not from the last one', () => {
    last().onopen?.();
    for (let n = 1; n <= 3; n++) {
      live.ping({ t: 'ping', n, t0: 0 });
      vi.advanceTimersByTime(1000);
    }
    vi.advanceTimersByTime(1);
    expect(state()).toBe('away');
  });

  it('is not mistaken for gone when a slow timer looks late but the answer was there', () => {
    last().onopen?.();
    live.ping({ t: 'ping', n: 1, t0: 0 });
    last().say(PONG);
    vi.advanceTimersByTime(60_000);
    expect(state()).toBe('on');
    expect(clock.receive).toHaveBeenCalledOnce();
  });

  it('finds out within 600 ms of waking that a connection is dead, and opens another', () => {
    last().onopen?.();
    live.wake();
    expect(clock.woke).toHaveBeenCalledOnce();
    vi.advanceTimersByTime(601);
    expect(state()).toBe('away');
    vi.advanceTimersByTime(250);
    expect(sockets).toHaveLength(2);
  });

  it('tries at once on waking while it is away, without waiting for its turn', () => {
    for (let failure = 0; failure < 5; failure++) {
      last().onclose?.({ code: 1006 });
      vi.advanceTimersByTime(4000);
    }
    last().onclose?.({ code: 1006 });
    const before = sockets.length;
    live.wake();
    expect(sockets).toHaveLength(before + 1);
  });

  it('gives up a connection that does not open in four seconds and tries another', () => {
    vi.advanceTimersByTime(4001 + 250);
    expect(sockets).toHaveLength(2);
  });

  it('stays closed, with a sentence, when the relay turns the page away for good', () => {
    last().onopen?.();
    const reason = sentenceOf('keyRenewed');
    last().onclose?.({ code: CLOSE_CODES.keyRenewed, reason });
    expect(live.state.get()).toEqual({ state: 'closed', words: reason });
    vi.advanceTimersByTime(60_000);
    live.wake();
    expect(sockets).toHaveLength(1);
  });

  it('is not troubled by a message it does not know', () => {
    const warn = vi.spyOn(console, 'warn').mockImplementation(() => {});
    last().onopen?.();
    last().say({ t: 'news' });
    last().onmessage?.({ data: 'no json' });
    expect(warn).toHaveBeenCalledTimes(2);
    expect(state()).toBe('on');
    warn.mockRestore();
  });

  it('opens nothing more once it was closed', () => {
    last().onopen?.();
    live.close();
    vi.advanceTimersByTime(60_000);
    expect(sockets).toHaveLength(1);
    expect(clock.disconnected).toHaveBeenCalledOnce();
  });
});
