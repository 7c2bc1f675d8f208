import * as decoding from 'lib0/decoding';
import * as encoding from 'lib0/encoding';
import {
  AWARENESS_FRAME,
  QUERY_AWARENESS_FRAME,
  SYNC_FRAME,
  SYNC_STEP_1,
  SYNC_STEP_2,
  SYNC_UPDATE,
} from '../common/protocol/sync-frames.ts';
import type { PresenceEntry } from './presence.ts';

/** What a tablet sent on `sync`. */
export type SyncFrame =
  | { readonly kind: 'step1'; readonly stateVector: Uint8Array }
  | { readonly kind: 'step2' | 'update'; readonly update: Uint8Array }
  | {
      readonly kind: 'awareness';
      readonly entries: readonly { readonly client: number; readonly state: string }[];
    }
  | { readonly kind: 'queryAwareness' };

/** More people than this are in no room of ours; a frame that says so is not read to its end. */
const MOST_ENTRIES = 1_000;

const readAwareness = (bytes: Uint8Array): SyncFrame => {
  const decoder = decoding.createDecoder(bytes);
  const count = decoding.readVarUint(decoder);
  if (count > MOST_ENTRIES) throw new Error(`${count} awareness entries`);
  const entries: { client: number; state: string }[] = [];
  for (let nth = 0; nth < count; nth++) {
    const client = decoding.readVarUint(decoder);
    decoding.readVarUint(decoder);
    entries.push({ client, state: decoding.readVarString(decoder) });
  }
  return { kind: 'awareness', entries };
};

const read = (bytes: Uint8Array): SyncFrame | null => {
  const decoder = decoding.createDecoder(bytes);
  switch (decoding.readVarUint(decoder)) {
    case SYNC_FRAME: {
      const kind = decoding.readVarUint(decoder);
      const body = decoding.readVarUint8Array(decoder);
      if (kind === SYNC_STEP_1) return { kind: 'step1', stateVector: body };
      if (kind === SYNC_STEP_2) return { kind: 'step2', update: body };
      return kind === SYNC_UPDATE ? { kind: 'update', update: body } : null;
    }
    case AWARENESS_FRAME:
      return readAwareness(decoding.readVarUint8Array(decoder));
    case QUERY_AWARENESS_FRAME:
      return { kind: 'queryAwareness' };
    default:
      return null;
  }
};

/** The frame in these bytes; null where there is none. Never throws. */
export const readSyncFrame = (bytes: Uint8Array): SyncFrame | null => {
  try {
    return read(bytes);
  } catch {
    // lib0 throws at the end of the bytes: that frame is cut short.
    return null;
  }
};

const syncFrame = (kind: number, body: Uint8Array): Uint8Array =>
  encoding.encode((encoder) => {
    encoding.writeVarUint(encoder, SYNC_FRAME);
    encoding.writeVarUint(encoder, kind);
    encoding.writeVarUint8Array(encoder, body);
  });

export const step1Frame = (stateVector: Uint8Array): Uint8Array => syncFrame(SYNC_STEP_1, stateVector);
export const step2Frame = (update: Uint8Array): Uint8Array => syncFrame(SYNC_STEP_2, update);
export const updateFrame = (update: Uint8Array): Uint8Array => syncFrame(SYNC_UPDATE, update);

export const awarenessFrame = (entries: readonly PresenceEntry[]): Uint8Array =>
  encoding.encode((encoder) => {
    encoding.writeVarUint(encoder, AWARENESS_FRAME);
    const body = encoding.encode((inner) => {
      encoding.writeVarUint(inner, entries.length);
      for (const { client, clock, state } of entries) {
        encoding.writeVarUint(inner, client);
        encoding.writeVarUint(inner, clock);
        encoding.writeVarString(inner, state);
      }
    });
    encoding.writeVarUint8Array(encoder, body);
  });
