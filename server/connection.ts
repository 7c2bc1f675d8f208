import type { WebSocket } from 'ws';
import { CLOSE_CODES, type CloseName } from '../common/protocol/close-codes.ts';
import { sentenceOf } from '../common/protocol/close-sentences.ts';
import { LIMITS } from '../common/protocol/limits.ts';
import type { Role } from '../common/protocol/roles.ts';
import type { Log } from './log.ts';
import { type Allowance, fullBucket, spend } from './token-bucket.ts';

/** A websocket that was let in. */
export interface Connection {
  readonly band: string;
  readonly role: Role;
  readonly close: (name: CloseName) => void;
  /** @param whole may wait to be sent even if it is larger than all that may wait otherwise */
  readonly send: (data: Uint8Array | string, whole?: boolean) => void;
  /** Asks for a sign of life; cut if none comes within a few seconds. */
  readonly probe: () => void;
  readonly ping: () => void;
  /** Without a goodbye: whoever is there does not listen. */
  readonly cut: (why: string) => void;
  readonly lastSentMs: () => number;
}

export interface ConnectionEvents {
  readonly message: (data: Buffer, isBinary: boolean) => void;
  readonly closed: () => void;
  readonly heard: () => void;
}

const MESSAGES: Allowance = { burst: LIMITS.messageBurst, everyMs: 1_000 / LIMITS.messagesPerSecond };
const PROBE_MS = 3_000;

export const openConnection = (
  socket: WebSocket,
  about: { readonly band: string; readonly role: Role },
  events: ConnectionEvents,
  nowMs: () => number,
  log: Log,
): Connection => {
  let open = true;
  let bucket = fullBucket(MESSAGES, nowMs());
  let lastSentMs = nowMs();
  /** Bytes that may wait beside the usual ones, because a whole document is on its way. */
  let wholeBytes = 0;
  let probing: NodeJS.Timeout | null = null;

  const heard = () => {
    if (probing !== null) clearTimeout(probing);
    probing = null;
    events.heard();
  };
  const cut = (why: string) => {
    if (socket.readyState === socket.CLOSED) return;
    log.info('connection cut', { band: about.band, why });
    socket.terminate();
  };
  const close = (name: CloseName) => {
    if (!open) return;
    open = false;
    log.info('connection closed', { band: about.band, why: name });
    socket.close(CLOSE_CODES[name], sentenceOf(name));
  };
  socket.on('message', (data, isBinary) => {
    if (!open) return;
    heard();
    const left = spend(bucket, MESSAGES, nowMs());
    if (left === null) {
      close('tooManyMessages');
      return;
    }
    bucket = left;
    // `ws` gives a Buffer: nothing here asks it for fragments or ArrayBuffers.
    events.message(data as Buffer, isBinary);
  });
  socket.on('pong', heard);
  socket.on('close', () => {
    open = false;
    if (probing !== null) clearTimeout(probing);
    events.closed();
  });
  // Reserved bits, invalid UTF-8, a message too large, a broken network: `ws` closes the socket by itself.
  socket.on('error', (error) => log.info('connection failed', { band: about.band, error: error.message }));

  return {
    ...about,
    close,
    cut,
    send: (data, whole = false) => {
      if (!open || socket.readyState !== socket.OPEN) return;
      const pending = socket.bufferedAmount;
      if (pending === 0) wholeBytes = 0;
      if (whole) wholeBytes += data.length;
      if (pending + data.length > LIMITS.pendingBytes + wholeBytes) {
        open = false;
        cut('it reads too slowly');
        return;
      }
      lastSentMs = nowMs();
      socket.send(data);
    },
    probe: () => {
      if (probing !== null || socket.readyState !== socket.OPEN) return;
      probing = setTimeout(() => cut('it gives no sign of life'), PROBE_MS);
      probing.unref();
      socket.ping();
    },
    ping: () => {
      if (socket.readyState === socket.OPEN) socket.ping();
    },
    lastSentMs: () => lastSentMs,
  };
};
