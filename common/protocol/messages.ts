import * as v from 'valibot';
import { calledCueSchema, cueSchema } from './cue-schema.ts';

/**
 * The messages on `live`: JSON text, one object a message. Members that are not known are left out on reading,
 * so that an older page and a newer relay understand each other.
 */

const idText = v.pipe(v.string(), v.minLength(1), v.maxLength(100));
const finite = v.pipe(v.number(), v.finite());

/** Tablet to relay: what time is it? `t0` is the tablet's own clock in ms, sent back as it came. */
export const pingSchema = v.object({ t: v.literal('ping'), n: finite, t0: finite });

/** Tablet to relay: a cue. `id` is made by the tablet and becomes the cue's id; sent twice it acts once. */
export const callSchema = v.object({ t: v.literal('call'), id: idText, cue: cueSchema });

/** Tablet to relay: take back the cue with the id `cue`. */
export const takeBackSchema = v.object({ t: v.literal('takeBack'), id: idText, cue: idText });

/**
 * Tablet to relay: who leads from now on, and whether the book is locked. Members are named by their ids; what is
 * absent stays as it is, null takes back. Sent twice with one `id` it acts once.
 */
export const leadSchema = v.object({
  t: v.literal('lead'),
  id: idText,
  baton: v.exactOptional(v.nullable(idText)),
  taps: v.exactOptional(v.nullable(idText)),
  locked: v.exactOptional(v.boolean()),
});

/** `t1` and `t2`: shared ms at which the ping came and the pong left. `epoch`: a new one means a new machine time. */
export const pongSchema = v.object({
  t: v.literal('pong'),
  n: finite,
  t0: finite,
  t1: finite,
  t2: finite,
  epoch: v.string(),
});

/** The relay took the call (or the taking back: then `cue` is `{kind: 'takeBack', cue}`) and it is on its disk. */
export const calledSchema = v.object({
  t: v.literal('called'),
  id: idText,
  cue: calledCueSchema,
  calledAtMs: finite,
});

/** The relay has done what a `lead` asked for, and it is on its disk. */
export const doneSchema = v.object({ t: v.literal('done'), id: idText });

/** The relay did not take it. `why` is a short stable name, `words` a sentence for the person. `id` is '' where none could be read. */
export const refusedSchema = v.object({
  t: v.literal('refused'),
  id: v.string(),
  why: v.string(),
  words: v.string(),
});

export const tabletMessageSchema = v.variant('t', [pingSchema, callSchema, takeBackSchema, leadSchema]);
export const relayMessageSchema = v.variant('t', [pongSchema, calledSchema, doneSchema, refusedSchema]);

export type Ping = v.InferOutput<typeof pingSchema>;
export type Call = v.InferOutput<typeof callSchema>;
export type TakeBack = v.InferOutput<typeof takeBackSchema>;
export type Lead = v.InferOutput<typeof leadSchema>;
export type Pong = v.InferOutput<typeof pongSchema>;
export type CalledMessage = v.InferOutput<typeof calledSchema>;
export type Done = v.InferOutput<typeof doneSchema>;
export type Refused = v.InferOutput<typeof refusedSchema>;
export type TabletMessage = v.InferOutput<typeof tabletMessageSchema>;
export type RelayMessage = v.InferOutput<typeof relayMessageSchema>;

/** The message a tablet sent; null where it is none. Never throws. */
export const readTabletMessage = (json: unknown): TabletMessage | null => {
  const read = v.safeParse(tabletMessageSchema, json);
  return read.success ? read.output : null;
};

/** The message the relay sent; null where it is none. Never throws. */
export const readRelayMessage = (json: unknown): RelayMessage | null => {
  const read = v.safeParse(relayMessageSchema, json);
  return read.success ? read.output : null;
};
