import type * as Y from 'yjs';
import type { Called, Take } from '../stage/cue.ts';
import { stampSchema } from './schema-version.ts';

/*
 * The document `stage` has one writer, the relay. All of the take but its cues is one value under one key: a
 * finished take is overwritten by the next, which costs a few bytes for ever, while the cues, which come one by
 * one, are appended to a list that starts afresh with each take.
 */
const stageOf = (doc: Y.Doc) => doc.getMap<unknown>('stage');
const cuesOf = (doc: Y.Doc) => doc.getArray<unknown>('cues');

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
  const held = stageOf(doc).get('take');
  if (!isRecord(held) || !isRecord(held['road']) || !Array.isArray(held['road']['legs'])) return null;
  if (typeof held['id'] !== 'string' || typeof held['chart'] !== 'string') return null;
  return {
    title: '',
    ...(held as Omit<Take, 'cues' | 'title'>),
    cues: cuesOf(doc).toArray().filter(isCalled),
  };
};

/** Replaces the take that is on, its cues included, in one transaction. */
export const writeTake = (doc: Y.Doc, take: Take, origin?: unknown): void =>
  doc.transact(() => {
    stampSchema(doc);
    const { cues, ...held } = take;
    stageOf(doc).set('take', held);
    const list = cuesOf(doc);
    if (list.length > 0) list.delete(0, list.length);
    if (cues.length > 0) list.push([...cues]);
  }, origin);

/** Adds a stamped cue at the end of the take's log. */
export const appendCalled = (doc: Y.Doc, called: Called, origin?: unknown): void =>
  doc.transact(() => cuesOf(doc).push([called]), origin);
