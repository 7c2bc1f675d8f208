import * as decoding from 'lib0/decoding';
import * as encoding from 'lib0/encoding';
import { readSyncMessage } from 'y-protocols/sync';
import { WebsocketProvider } from 'y-websocket';
import type * as Y from 'yjs';
import { CLOSE_CODES, isFinal } from '../../common/protocol/close-codes.ts';
import {
  ACKNOWLEDGEMENT_FRAME,
  SYNC_FRAME,
  SYNC_STEP_1,
  SYNC_STEP_2,
} from '../../common/protocol/sync-frames.ts';
import type { Room, RoomState } from '../state/board-parts.ts';
import { settable } from '../state/observable.ts';
import { backoffMs } from './backoff.ts';
import { countingSocket } from './counting-socket.ts';

const AUTH_FRAME = 2;

const UNCONNECTED: RoomState = {
  connected: false,
  synced: false,
  writable: false,
  sending: false,
  closed: null,
};
const TURNED_AWAY = 'The relay has closed this document. Load the page again.';
const FIELDS = ['connected', 'synced', 'writable', 'sending', 'closed'] as const;

const UNREADABLE =
  'This page cannot read what the relay sent. What you typed is kept on this tablet: load the page again.';

/**
 * One document's connection to the relay. y-websocket speaks the protocol; when to come back is decided here,
 * what is acknowledged is counted here, and a read-only room never sends anything but questions.
 * @param syncUrl for example ws://host/sync
 * @param room `<band>/<document>`
 * @param access what lets it in: the key, and who this is
 */
export const openSyncRoom = (
  syncUrl: string,
  room: string,
  access: Readonly<Record<string, string>>,
  doc: Y.Doc,
  readOnly: boolean,
  random: () => number,
): Room => {
  const state = settable<RoomState>(UNCONNECTED);
  let sent = 0;
  let acknowledged = 0;
  let askedForOurs = false;
  let failures = 0;
  let retry: ReturnType<typeof setTimeout> | undefined;

  const update = (fields: Partial<RoomState> = {}) => {
    const now = state.get();
    const connected = provider.wsconnected;
    const writable = !readOnly && connected && askedForOurs;
    const sending = !readOnly && (!askedForOurs || acknowledged < sent);
    const next = { ...now, connected, synced: provider.synced, writable, sending, ...fields };
    if (FIELDS.some((field) => next[field] !== now[field])) state.set(next);
  };

  const provider = new WebsocketProvider(syncUrl, room, doc, {
    connect: false,
    // Tabs of one browser are stands like all others: they talk through the relay, so that its absence shows.
    disableBc: true,
    params: { ...access, acks: '1' },
    // y-websocket would come back by itself without any spread; `retry` does it instead.
    shouldReconnect: () => false,
    WebSocketPolyfill: countingSocket(
      () => {
        sent = 0;
        acknowledged = 0;
        askedForOurs = false;
      },
      () => {
        sent += 1;
        update();
      },
    ),
  });
  // Nothing goes out before the relay has asked for what is here: that answer holds everything typed so far. A relay
  // that takes no writes does not ask. A read-only document's changes come from the relay or from this tablet's copy.
  const sendOn = (changes: Uint8Array, origin: unknown) => {
    if (!readOnly && askedForOurs) provider._updateHandler(changes, origin);
  };
  doc.off('update', provider._updateHandler);
  doc.on('update', sendOn);

  provider.messageHandlers[SYNC_FRAME] = (encoder, decoder, _provider, emitSynced) => {
    if (decoding.peekVarUint(decoder) === SYNC_STEP_1) {
      // Told to nobody before the answer is sent: all of it is still to come.
      askedForOurs = true;
      if (readOnly) return;
    }
    encoding.writeVarUint(encoder, SYNC_FRAME);
    const kind = readSyncMessage(decoder, encoder, doc, provider, (error: Error) => {
      console.error(`An update of ${room} could not be read.`, error);
      update({ closed: UNREADABLE });
      provider.disconnect();
    });
    if (emitSynced && kind === SYNC_STEP_2 && !provider.synced) provider.synced = true;
  };
  // The relay closes with a code instead of sending this; another relay's refusal must not pass unseen.
  provider.messageHandlers[AUTH_FRAME] = () => {
    update({ closed: TURNED_AWAY });
    provider.disconnect();
  };
  provider.messageHandlers[ACKNOWLEDGEMENT_FRAME] = (_encoder, decoder) => {
    acknowledged = decoding.readVarUint(decoder);
    update();
  };

  const connect = () => {
    clearTimeout(retry);
    if (state.get().closed === null) provider.connect();
  };
  const comeBack = () => {
    clearTimeout(retry);
    failures += 1;
    retry = setTimeout(connect, backoffMs(failures, random()));
  };
  provider.on('status', ({ status }) => {
    if (status === 'connected') {
      // Others may have been told that we left; only a newer state is believed after that.
      const mine = provider.awareness.getLocalState();
      if (mine) provider.awareness.setLocalState(mine);
    }
    update();
  });
  provider.on('sync', (synced: boolean) => {
    if (synced) failures = 0;
    update();
  });
  provider.on('closed', ({ code, reason }) => {
    // A book that is locked for the gig can still be read: this time nothing is sent before the relay asks.
    if (isFinal(code) && code !== CLOSE_CODES.locked) {
      update({ closed: reason || TURNED_AWAY });
    } else comeBack();
  });

  return {
    doc,
    awareness: provider.awareness,
    state,
    remoteOrigin: provider,
    connect,
    drop: () => {
      clearTimeout(retry);
      provider.disconnect();
    },
    close: () => {
      clearTimeout(retry);
      doc.off('update', sendOn);
      provider.destroy();
      provider.awareness.destroy();
    },
  };
};
