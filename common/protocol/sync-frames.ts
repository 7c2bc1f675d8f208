/**
 * The frames on `sync`, as bytes. A frame begins with its type as a varUint (lib0: seven bits a byte, the lowest
 * first, the high bit set on all but the last). Types 0 to 3 are those of y-websocket; 4 is our own:
 *
 *     sync            0, kind (0 step 1 · 1 step 2 · 2 update), length, bytes
 *     awareness       1, length, bytes
 *     auth            2, …                                   (never sent: the relay closes with a code instead)
 *     query awareness 3
 *     acknowledgement 4, count                               (relay to tablet)
 *
 * `count` is how many document writes (step 2 and update frames, see `isDocumentWrite`) of this connection are on
 * the relay's disk, counted from its beginning; a later acknowledgement replaces an earlier one. Only a
 * connection that asked for them with `&acks=1` in its address gets acknowledgements, so that a plain
 * y-websocket client is not sent what it does not know.
 */
export const SYNC_FRAME = 0;
export const AWARENESS_FRAME = 1;
export const QUERY_AWARENESS_FRAME = 3;
export const ACKNOWLEDGEMENT_FRAME = 4;

export const SYNC_STEP_1 = 0;
export const SYNC_STEP_2 = 1;
export const SYNC_UPDATE = 2;

/** Whether a frame sent by a tablet is counted by acknowledgements. */
export const isDocumentWrite = (frame: Uint8Array): boolean =>
  frame[0] === SYNC_FRAME && (frame[1] === SYNC_STEP_2 || frame[1] === SYNC_UPDATE);

export const encodeAcknowledgement = (count: number): Uint8Array => {
  const bytes = [ACKNOWLEDGEMENT_FRAME];
  let rest = count;
  while (rest > 127) {
    bytes.push(128 + (rest % 128));
    rest = Math.floor(rest / 128);
  }
  bytes.push(rest);
  return Uint8Array.from(bytes);
};

/** The count in an acknowledgement; null where the frame is none. `decode(encode(n)) === n` for 0 ≤ n < 2^53. */
export const decodeAcknowledgement = (frame: Uint8Array): number | null => {
  if (frame[0] !== ACKNOWLEDGEMENT_FRAME) return null;
  let count = 0;
  let scale = 1;
  for (let at = 1; at < frame.length; at++) {
    const byte = frame[at] ?? 0;
    count += (byte % 128) * scale;
    if (byte < 128) return at === frame.length - 1 && Number.isSafeInteger(count) ? count : null;
    scale *= 128;
  }
  return null;
};
