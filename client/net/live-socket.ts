import type { MakeId } from '../../common/ids.ts';
import { isFinal } from '../../common/protocol/close-codes.ts';
import type { TabletMessage } from '../../common/protocol/messages.ts';
import { failed, ok, type Result } from '../../common/result.ts';
import type { Called, Cue } from '../../common/stage/cue.ts';
import type { LeadChange } from '../../common/stage/leading.ts';
import type { Live } from '../state/board-parts.ts';
import type { LinkState, Refusal } from '../state/link-state.ts';
import { settable } from '../state/observable.ts';
import { backoffMs } from './backoff.ts';
import { type HeardMessage, readRelayMessage } from './read-relay-message.ts';
import type { Ping, SharedClock } from './shared-clock.ts';

/** What of a WebSocket is used, so that a test can stand in for it. */
export interface LiveSocket {
  onopen: (() => void) | null;
  onmessage: ((event: { readonly data: unknown }) => void) | null;
  onclose: ((event: { readonly code: number; readonly reason?: string }) => void) | null;
  onerror: (() => void) | null;
  readonly send: (text: string) => void;
  readonly close: () => void;
}

export interface LiveParts {
  /** Opens a socket to the relay's `live` address. */
  readonly open: () => LiveSocket;
  /** ms, monotonic while the tablet is awake. */
  readonly nowMs: () => number;
  /** Calls once after so many ms; the returned function takes it back. */
  readonly after: (ms: number, run: () => void) => () => void;
  readonly makeId: MakeId;
  readonly random: () => number;
  readonly clock: Pick<SharedClock, 'connected' | 'disconnected' | 'receive' | 'woke'>;
}

/** No answer to a ping for so long: the relay is gone. */
const SILENCE_MS = 3000;
/** The same just after waking, when a dead connection is likely. */
const SILENCE_AFTER_WAKING_MS = 600;
/** How long a connection may take to open. */
const OPENING_MS = 4000;
/** How long a call waits for its answer. */
const ANSWER_MS = 4000;
/** A page that has just been opened says "finding" for so long before it says that the relay is away. */
const FINDING_MS = 3000;

const AWAY: Refusal = {
  why: 'away',
  words: 'The relay is away, so nobody would hear this. Call it again when it is back.',
};
const TIMEOUT: Refusal = {
  why: 'timeout',
  words: 'The relay did not answer. Look at the stand before calling again: it may have been heard.',
};

type Taken = Extract<HeardMessage, { t: 'called' | 'done' }>;
type Answer = Result<Taken, Refusal>;
type Asked = TabletMessage & { readonly id: string };

/** A live socket that comes back by itself, with the means of pinging and waking it. */
export interface LiveConnection extends Live {
  /** Sends a ping if the socket is open. */
  readonly ping: (ping: Ping) => boolean;
  /** The tablet may have slept: finds out at once whether the relay is there. */
  readonly wake: () => void;
}

/** Opens the socket of pings and calls, and keeps it open. */
export const openLive = (parts: LiveParts): LiveConnection => {
  const state = settable<LinkState>({ state: 'finding' });
  const waiting = new Map<string, { readonly asked: Asked; readonly answered: (answer: Answer) => void }>();
  let socket: LiveSocket | null = null;
  let isOpen = false;
  let ended = false;
  let failures = 0;
  /** When the first ping that is still unanswered was sent. */
  let askedAtMs: number | null = null;
  let stopRetry = () => {};
  let stopOpening = () => {};
  let stopSilence = () => {};

  const settle = (id: string, answer: Answer) => {
    const asking = waiting.get(id);
    waiting.delete(id);
    asking?.answered(answer);
  };
  const letGo = () => {
    stopOpening();
    stopSilence();
    askedAtMs = null;
    if (socket) {
      socket.onopen = socket.onmessage = socket.onclose = null;
      socket.onerror = () => {};
      socket.close();
    }
    socket = null;
    if (isOpen) parts.clock.disconnected();
    isOpen = false;
  };
  const lost = (code?: number, reason?: string) => {
    letGo();
    const final = code !== undefined && isFinal(code);
    // Whether these were heard is not known; the stage will show it.
    if (ended || final) for (const id of [...waiting.keys()]) settle(id, failed(TIMEOUT));
    if (ended) return;
    if (final) {
      const words = reason || 'The relay has turned this page away. Load the page again.';
      state.set({ state: 'closed', words });
      return;
    }
    if (state.get().state === 'on') state.set({ state: 'away' });
    failures += 1;
    stopRetry();
    stopRetry = parts.after(backoffMs(failures, parts.random()), connect);
  };
  const watchSilence = (limitMs: number) => {
    stopSilence();
    if (askedAtMs === null) return;
    const dueMs = askedAtMs + limitMs;
    stopSilence = parts.after(Math.max(0, dueMs - parts.nowMs()), () => lost());
  };
  const heard = (data: unknown, atMs: number) => {
    askedAtMs = null;
    stopSilence();
    const message = readRelayMessage(parseJson(data));
    if (!message) return console.warn('The relay sent a message this page does not know.');
    if (message.t === 'pong') parts.clock.receive(message, atMs);
    else if (message.t === 'refused') settle(message.id, failed({ why: message.why, words: message.words }));
    else settle(message.id, ok(message));
  };
  const connect = () => {
    stopRetry();
    letGo();
    const opened = parts.open();
    socket = opened;
    stopOpening = parts.after(OPENING_MS, () => lost());
    opened.onopen = () => {
      stopOpening();
      isOpen = true;
      failures = 0;
      state.set({ state: 'on' });
      parts.clock.connected();
      // The connection broke before their answers were here. The relay acts once on an id.
      for (const { asked } of waiting.values()) send(asked);
    };
    opened.onmessage = (event) => heard(event.data, parts.nowMs());
    opened.onclose = (event) => lost(event.code, event.reason);
    opened.onerror = () => {
      // A close follows, and says what there is to say.
    };
  };
  const send = (message: TabletMessage): boolean => {
    if (!isOpen || !socket) return false;
    socket.send(JSON.stringify(message));
    return true;
  };
  const ask = (asked: Asked): Promise<Answer> => {
    if (!send(asked)) return Promise.resolve(failed(awayWords(state.get())));
    return new Promise((answer) => {
      const stop = parts.after(ANSWER_MS, () => settle(asked.id, failed(TIMEOUT)));
      const answered = (what: Answer) => {
        stop();
        answer(what);
      };
      waiting.set(asked.id, { asked, answered });
    });
  };
  const done = async (asked: Asked): Promise<Result<null, Refusal>> => {
    const answer = await ask(asked);
    return answer.ok ? ok(null) : answer;
  };

  connect();
  parts.after(FINDING_MS, () => {
    if (state.get().state === 'finding') state.set({ state: 'away' });
  });

  return {
    state,
    call: async (cue: Cue): Promise<Result<Called, Refusal>> => {
      const id = parts.makeId();
      const answer = await ask({ t: 'call', id, cue });
      if (!answer.ok) return answer;
      // The relay answers a call with nothing else.
      const { calledAtMs } = answer.value as Extract<Taken, { t: 'called' }>;
      return ok({ id, cue, calledAtMs });
    },
    takeBack: (cueId) => done({ t: 'takeBack', id: parts.makeId(), cue: cueId }),
    lead: (change: LeadChange) => done({ t: 'lead', id: parts.makeId(), ...change }),
    ping: (ping) => {
      if (!send(ping)) return false;
      if (askedAtMs === null) {
        askedAtMs = parts.nowMs();
        watchSilence(SILENCE_MS);
      }
      return true;
    },
    wake: () => {
      if (ended || state.get().state === 'closed') return;
      if (!isOpen) {
        connect();
        return;
      }
      askedAtMs = parts.nowMs();
      watchSilence(SILENCE_AFTER_WAKING_MS);
      parts.clock.woke();
    },
    close: () => {
      ended = true;
      stopRetry();
      lost();
    },
  };
};

const awayWords = (link: LinkState): Refusal =>
  link.state === 'closed' ? { why: 'closed', words: link.words } : AWAY;

const parseJson = (data: unknown): unknown => {
  try {
    return typeof data === 'string' ? JSON.parse(data) : undefined;
  } catch {
    // The caller says what it makes of something that is no JSON.
    return undefined;
  }
};
