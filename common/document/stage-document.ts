import type * as Y from 'yjs';
import type { Called, Take } from '../stage/cue.ts';
import { stampSchema } from './schema-version.ts';

/*
 * The document `stage` has one writer, the relay. It is one list: all of the take but its cues as one value, then
 * the cues as they are called. What is cleared from the end of one list by one writer melts into a single mark,
 * so that the document doesn't grow with the takes; a key beside a list costs 19 bytes a take for ever.
 */
const takeOf = (doc: Y.Doc) => doc.getArray<unknown>('take');

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const isCalled = (value: unknown): value is Called =>
  isRecord(value) &&
  typeof value['id'] === 'string' &&
  typeof value['calledAtMs'] === 'number' &&
  isRecord(value['cue']) &&
  typeof value['cue']['kind'] === 'string';

/** The take that is on, or null where none was called yet or what is there is no take. Never throws. */
export const readStage = (doc: Y.Doc): Take | null => {
  const [held, ...cues] = takeOf(doc).toArray();
  return isRecord(held) ? readTake({ ...held, cues }) : null;
};

/** A take as it was written down, or null where that is none. Cues that are none are left out. Never throws. */
export const readTake = (held: unknown): Take | null => {
  if (!isRecord(held) || !isRecord(held['road']) || !Array.isArray(held['road']['legs'])) return null;
  if (typeof held['id'] !== 'string' || typeof held['chart'] !== 'string') return null;
  const { cues } = held;
  return {
    title: '',
    ...(held as Omit<Take, 'cues' | 'title'>),
    cues: Array.isArray(cues) ? cues.filter(isCalled) : [],
  };
};

/** Replaces the take that is on, its cues included, in one transaction. */
export const writeTake = (doc: Y.Doc, take: Take, origin?: unknown): void =>
  doc.transact(() => {
    stampSchema(doc);
    const { cues, ...held } = take;
    const list = takeOf(doc);
    if (list.length > 0) list.delete(0, list.length);
    list.push([held, ...cues]);
  }, origin);

/** Adds a stamped cue at the end of the take's log. */
export const appendCalled = (doc: Y.Doc, called: Called, origin?: unknown): void =>
  doc.transact(() => takeOf(doc).push([called]), origin);
