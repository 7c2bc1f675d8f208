import type { Awareness } from 'y-protocols/awareness';
import type * as Y from 'yjs';
import type { MakeId } from '../../common/ids.ts';
import type { Role } from '../../common/protocol/roles.ts';
import type { Result } from '../../common/result.ts';
import type { Called, Cue } from '../../common/stage/cue.ts';
import type { LeadChange } from '../../common/stage/leading.ts';
import type { SharedMs } from '../../common/units.ts';
import type { ClockState, LinkState, Refusal } from './link-state.ts';
import type { Observable } from './observable.ts';

/*
 * What a board is made of. `net` and `storage` make these parts, `app/wiring` joins them, so that the board
 * itself can be tried without a network or a browser.
 */

/** The copy of one document on this tablet. */
export interface OfflineCopy {
  /** Resolves when what was kept has been read into the document, also where nothing could be read. */
  readonly loaded: Promise<void>;
  readonly close: () => void;
}

/** Documents with something typed here that the relay does not have yet; outlives the page. */
export interface Unsent {
  readonly get: () => readonly string[];
  readonly set: (document: string, unsent: boolean) => void;
}

export interface RoomState {
  readonly connected: boolean;
  /** Everything the relay had when we connected is here. */
  readonly synced: boolean;
  /** The relay has asked for what is here, and takes what is typed; else that is kept until it asks. */
  readonly writable: boolean;
  /** The relay has not yet said that all we sent, or still have to send, is on its disk. */
  readonly sending: boolean;
  /** Turned away for good: a sentence; null otherwise. */
  readonly closed: string | null;
}

/** One document's connection to the relay. */
export interface Room {
  readonly doc: Y.Doc;
  readonly awareness: Awareness;
  readonly state: Observable<RoomState>;
  /** The origin of changes that came from others. */
  readonly remoteOrigin: unknown;
  /** Connects now, if it is not connected. */
  readonly connect: () => void;
  /** The network is known to be gone: lets the connection go. `connect` takes it up again. */
  readonly drop: () => void;
  readonly close: () => void;
}

/** @param readOnly nothing is ever sent but questions: the relay would turn us away */
export type OpenRoom = (document: string, doc: Y.Doc, readOnly: boolean) => Room;

/** The socket of pings and calls. */
export interface Live {
  readonly state: Observable<LinkState>;
  readonly call: (cue: Cue) => Promise<Result<Called, Refusal>>;
  readonly takeBack: (cueId: string) => Promise<Result<null, Refusal>>;
  readonly lead: (change: LeadChange) => Promise<Result<null, Refusal>>;
  readonly close: () => void;
}

export interface Clock {
  readonly sharedNow: () => SharedMs;
  /** Calls back when shared time has jumped by more than two seconds, until the returned function is called. */
  readonly onReseek: (reseek: (byMs: number) => void) => () => void;
  readonly clock: Observable<ClockState>;
}

export interface Timers {
  /** Local ms that never run backwards. */
  readonly nowMs: () => number;
  /** Calls once; the returned function takes it back. */
  readonly after: (ms: number, run: () => void) => () => void;
}

export interface BoardParts {
  readonly band: string;
  readonly role: Role;
  readonly member: string;
  readonly live: Live;
  readonly clock: Clock;
  readonly openRoom: OpenRoom;
  readonly openCopy: (document: string, doc: Y.Doc) => OfflineCopy;
  readonly unsent: Unsent;
  readonly timers: Timers;
  readonly makeId: MakeId;
  /** Name and instrument of who sits at this stand. */
  readonly me: Observable<{ readonly name: string; readonly part: string }>;
}
