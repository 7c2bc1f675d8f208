import { randomBytes } from 'node:crypto';
import { once } from 'node:events';
import { createServer, type Server } from 'node:http';
import { setBandName } from '../common/document/edit-book.ts';
import { randomIds } from '../common/ids.ts';
import { LIMITS } from '../common/protocol/limits.ts';
import { PROTOCOL_VERSION } from '../common/protocol/version.ts';
import { addressAllowance } from './address-allowance.ts';
import { networkOrigins } from './addresses.ts';
import { createApi } from './api.ts';
import { type Bands, bands as openBands } from './bands.ts';
import { createConductor } from './conductor.ts';
import type { Config } from './config.ts';
import { createCrowd } from './crowd.ts';
import { lockData } from './data-lock.ts';
import { type FinishedTakes, finishedTakes } from './finished-takes.ts';
import { httpHandler, type Pages } from './http.ts';
import { createLeads, type Leads } from './leads.ts';
import { joinLive } from './live.ts';
import type { Log } from './log.ts';
import { type MachineClock, machineClock } from './machine-clock.ts';
import { openMembers } from './members.ts';
import { relayClientId } from './relay-client-id.ts';
import { createRooms, type Rooms } from './rooms.ts';
import { securityHeaders } from './security-headers.ts';
import { openSockets } from './sockets.ts';
import { openStore, type Store } from './store.ts';
import { joinSync } from './sync.ts';
import { openTimeKeeper } from './time-keeper.ts';

/** A relay that runs. */
export interface Relay {
  readonly port: number;
  readonly bands: Bands;
  readonly rooms: Rooms;
  readonly takes: FinishedTakes;
  readonly store: Store;
  /** Client id under which the relay itself writes. */
  readonly clientId: number;
  /** Origins at which tablets on this machine's networks reach it. */
  readonly addresses: () => readonly string[];
  /** Ends everything: what was received is on the disk when this is done. */
  readonly close: () => Promise<void>;
}

export interface RelayParts {
  readonly config: Pick<Config, 'port' | 'host' | 'data' | 'origins'>;
  readonly log: Log;
  /** Called when the disk does not take a commit: the relay must end. */
  readonly failed: (error: Error) => void;
  /** What shows the pages; gets the server for its own websocket. */
  readonly pages: (server: Server) => Pages | Promise<Pages>;
  readonly clock?: MachineClock;
  readonly headers?: typeof securityHeaders;
  /** Between two turns of the wheel: a second, less in tests. */
  readonly turnMs?: number;
  /** Counts connections from this machine as it does those of others. */
  readonly countLoopback?: boolean;
}

const TURN_MS = 1_000;
const TURNS_PER_RENEWAL = 5;
const ADOPT_MS = 300;
/** How long HTTP answers that are under way may take when the relay ends. */
const LAST_ANSWERS_MS = 500;

/** @throws with words where the folder, the database or the port cannot be used */
export const openRelay = async (parts: RelayParts): Promise<Relay> => {
  const { config, log } = parts;
  const clock = parts.clock ?? machineClock();
  const unlock = lockData(config.data);
  const store = openStore(config.data, log, parts.failed);
  const bands = openBands(store, clock.wallMs);
  const keeper = openTimeKeeper(store, clock);
  const { time } = keeper;
  const clientId = relayClientId(time.epoch);
  const isLocked = (band: string): boolean => leads.of(band).locked === true;
  const rooms = createRooms(store, log, clock.monotonicMs, time.now, isLocked);
  const members = openMembers(store);
  const leads: Leads = createLeads(rooms, members, store.afterCommit, clientId, log);
  const takes = finishedTakes(store);
  const makeId = randomIds((n) => randomBytes(n));
  const conductor = createConductor(rooms, takes, store.afterCommit, time, makeId, log);
  rooms.onChange(conductor.changed);
  const crowd = createCrowd();
  const around = { rooms, conductor, leads, crowd, time, nowMs: clock.monotonicMs, log };
  const startedMs = clock.monotonicMs();

  const server = createServer();
  // Set once it listens: port 0 is any that is free.
  let port = config.port;
  const addresses = () => networkOrigins(config.host, port);
  const api = createApi({
    bands,
    codeTries: addressAllowance({ burst: LIMITS.codeTries, everyMs: LIMITS.codeTryEveryMs }),
    bandsMade: addressAllowance({ burst: LIMITS.bandsAtOnce, everyMs: LIMITS.bandEveryMs }),
    nowMs: clock.monotonicMs,
    keyRenewed: crowd.keyRenewed,
    renamed: (band, name) => rooms.open(band, 'book').write(clientId, (doc) => setBandName(doc, name)),
    isLocked,
    addresses,
    health: () => ({
      protocol: PROTOCOL_VERSION,
      epoch: time.epoch,
      connections: crowd.size(),
      rooms: rooms.count(),
      upMs: Math.round(clock.monotonicMs() - startedMs),
    }),
  });
  server.on('request', httpHandler(api, await parts.pages(server), parts.headers ?? securityHeaders, log));
  server.on('clientError', (_error, socket) => {
    if (socket.writable) socket.end('HTTP/1.1 400 Bad Request\r\nConnection: close\r\n\r\n');
  });
  const sockets = openSockets({
    server,
    bands,
    origins: config.origins,
    log,
    countLoopback: parts.countLoopback ?? false,
    enter: (socket, came) => {
      const { member, left } = members.enter(came);
      socket.on('close', left);
      const { document } = came;
      if (document === null) joinLive(socket, { ...came, member }, around);
      else joinSync(socket, { ...came, member, document }, around);
    },
  });
  server.listen(config.port, config.host);
  try {
    await once(server, 'listening');
  } catch (error) {
    await store.close();
    unlock();
    throw error;
  }
  const address = server.address();
  if (address !== null && typeof address !== 'string') port = address.port;

  let turns = 0;
  const timers = [
    setInterval(() => {
      if (++turns % TURNS_PER_RENEWAL === 0) rooms.renew();
      crowd.turn();
      rooms.sweep();
      keeper.turn();
    }, parts.turnMs ?? TURN_MS),
    setInterval(conductor.tick, ADOPT_MS),
  ];
  return {
    port,
    bands,
    rooms,
    takes,
    store,
    clientId,
    addresses,
    close: async () => {
      for (const timer of timers) clearInterval(timer);
      const closed = new Promise<void>((done) => server.close(() => done()));
      store.flush();
      await sockets.close();
      server.closeAllConnections();
      // Somebody else's websocket on this server (hot reload) may never end by itself.
      await Promise.race([closed, new Promise<void>((done) => setTimeout(done, LAST_ANSWERS_MS).unref())]);
      keeper.keep();
      await store.close();
      unlock();
    },
  };
};
