import type { IncomingMessage, Server } from 'node:http';
import type { Duplex } from 'node:stream';
import { type WebSocket, WebSocketServer } from 'ws';
import { CLOSE_CODES, type CloseName } from '../common/protocol/close-codes.ts';
import { sentenceOf } from '../common/protocol/close-sentences.ts';
import { LIMITS } from '../common/protocol/limits.ts';
import { addressGroup, isLoopback } from './address-allowance.ts';
import type { Bands } from './bands.ts';
import type { Log } from './log.ts';
import { RelaySocket } from './relay-socket.ts';
import { isSocketPath, readVisitor, type Visitor } from './visitor.ts';

/** Takes in websockets: a browser cannot see why one was not opened, so each is opened and, if need be, closed with a reason. */
export interface Sockets {
  /** Takes in nobody any more and says goodbye to everybody: come back soon (1012). */
  readonly close: () => Promise<void>;
}

export interface SocketsSurroundings {
  readonly server: Server;
  readonly bands: Pick<Bands, 'roleOf'>;
  readonly origins: readonly string[];
  readonly enter: (socket: WebSocket, visitor: Visitor) => void;
  readonly log: Log;
  /** Also counts the connections of programs on this machine. */
  readonly countLoopback: boolean;
}

const SERVICE_RESTART = 1012;
/** Tablets that do not answer a goodbye within this time are gone already. */
const GOODBYE_MS = 500;

export const openSockets = (around: SocketsSurroundings): Sockets => {
  const { server, log } = around;
  const sockets = new WebSocketServer({
    noServer: true,
    perMessageDeflate: false,
    maxPayload: LIMITS.messageBytes,
    WebSocket: RelaySocket,
    clientTracking: true,
  });
  const perAddress = new Map<string, number>();
  let closing = false;

  const turnAway = (socket: WebSocket, why: CloseName, address: string) => {
    // Its errors are of no interest any more, but an error nobody listens to would end the relay.
    socket.on('error', (error) => log.debug('turned away', { error: error.message }));
    log.info('turned away', { why, address });
    socket.close(CLOSE_CODES[why], sentenceOf(why));
  };
  const counted = (socket: WebSocket, address: string): boolean => {
    if (isLoopback(address) && !around.countLoopback) return true;
    const group = addressGroup(address);
    const count = (perAddress.get(group) ?? 0) + 1;
    if (count > LIMITS.connectionsPerAddress) return false;
    perAddress.set(group, count);
    socket.on('close', () => {
      const left = (perAddress.get(group) ?? 1) - 1;
      if (left > 0) perAddress.set(group, left);
      else perAddress.delete(group);
    });
    return true;
  };
  const admit = (socket: WebSocket, request: IncomingMessage) => {
    const address = request.socket.remoteAddress ?? '';
    if (!counted(socket, address)) {
      turnAway(socket, 'tooManyConnections', address);
      return;
    }
    const visitor = readVisitor(request, around.bands, around.origins);
    if (visitor.ok) around.enter(socket, visitor.value);
    else turnAway(socket, visitor.error, address);
  };
  const upgrade = (request: IncomingMessage, stream: Duplex, head: Buffer) => {
    if (!isSocketPath(request.url ?? '')) {
      // Another listener on this server may know it (hot reload while developing).
      if (server.listenerCount('upgrade') === 1) stream.destroy();
      return;
    }
    if (closing) {
      stream.destroy();
      return;
    }
    // A cue is a small frame, and must not wait for another to fill a packet.
    request.socket.setNoDelay(true);
    sockets.handleUpgrade(request, stream, head, (socket) => admit(socket, request));
  };
  server.on('upgrade', upgrade);
  return {
    close: async () => {
      closing = true;
      const gone = [...sockets.clients].map(
        (socket) =>
          new Promise<void>((done) =>
            socket.readyState === socket.CLOSED ? done() : socket.once('close', () => done()),
          ),
      );
      for (const socket of sockets.clients) socket.close(SERVICE_RESTART, 'The relay is being restarted.');
      await Promise.race([
        Promise.all(gone),
        new Promise<void>((done) => setTimeout(done, GOODBYE_MS).unref()),
      ]);
      for (const socket of sockets.clients) socket.terminate();
      server.off('upgrade', upgrade);
    },
  };
};
