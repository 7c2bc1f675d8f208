import * as Y from 'yjs';
import {
  isDeleted,
  WATCHED_IN_BARS,
  WATCHED_IN_LINES,
  WATCHED_IN_NOTES,
  WATCHED_IN_ROAD,
  WATCHED_IN_SECTIONS,
  WATCHED_IN_SPOTS,
  type Watched,
} from '../../common/document/deletion.ts';
import { writeEntry } from '../../common/document/entry.ts';
import { type Observable, settable } from './observable.ts';

/** What has come of taking a step back, or of doing it again. Places as in `watchPlaces`. */
export interface StepTaken {
  readonly taken: readonly string[];
  /** Where others have written since, or what they have deleted: it stays as it is. */
  readonly kept: readonly string[];
}

/** One's own steps in a chart's document. */
export interface OwnSteps {
  /** Takes the last one back, where it still stands; null where there is none. */
  readonly undo: () => StepTaken | null;
  readonly redo: () => StepTaken | null;
  readonly state: Observable<{ readonly canUndo: boolean; readonly canRedo: boolean }>;
  readonly close: () => void;
}

/** What people write in a chart: entries by id, and maps that hold plain values. */
const MAPS: Readonly<Record<string, Watched | null>> = {
  head: null,
  dismissedSpots: null,
  sections: WATCHED_IN_SECTIONS,
  bars: WATCHED_IN_BARS,
  lines: WATCHED_IN_LINES,
  road: WATCHED_IN_ROAD,
  notes: WATCHED_IN_NOTES,
  addedSpots: WATCHED_IN_SPOTS,
};

type Fields = Readonly<Record<string, unknown>>;

/** One value that a step has changed. Without a field it is that of the map itself: all fields of an entry, or plain. */
interface Change {
  readonly map: string;
  readonly id: string;
  readonly field: string | null;
  readonly before: unknown;
  readonly after: unknown;
}

type Step = readonly Change[];

const isFields = (value: unknown): value is Fields => typeof value === 'object' && value !== null;

const plain = (value: unknown): unknown => (value instanceof Y.Map ? value.toJSON() : value);

const changesOf = (map: string, { path, target, changes }: Y.YEvent<Y.AbstractType<unknown>>): Change[] => {
  const [entry] = path;
  const held = target as Y.Map<unknown>;
  return [...changes.keys].flatMap(([key, { oldValue }]) => {
    const before = plain(oldValue);
    // A shared text of another program's cannot be had back once it is gone.
    if (before instanceof Y.AbstractType) return [];
    const field = entry === undefined ? null : key;
    return [{ map, id: String(entry ?? key), field, before, after: plain(held.get(key)) }];
  });
};

/** Set by making room for others, not by writing. */
const SET_BY_THE_WAY: readonly string[] = ['order', 'lineEnd'];

const isSame = (a: unknown, b: unknown): boolean => {
  if (!isFields(a) || !isFields(b)) return a === b;
  const names = new Set([...Object.keys(a), ...Object.keys(b)]);
  return [...names].every((name) => SET_BY_THE_WAY.includes(name) || a[name] === b[name]);
};

const placeOf = ({ map, id, field }: Change): string =>
  field === null ? `${map}.${id}` : `${map}.${id}.${field}`;

const entryOf = (doc: Y.Doc, { map, id }: Change): Y.Map<unknown> | null => {
  const held = doc.getMap<unknown>(map).get(id);
  return held instanceof Y.Map ? held : null;
};

/** Whether a change still stands: nobody has written there since, nor deleted what it is in. */
const stands = (doc: Y.Doc, step: Step, change: Change): boolean => {
  const { map, id, field, after } = change;
  if (field === null) return isSame(plain(doc.getMap<unknown>(map).get(id)), after);
  const entry = entryOf(doc, change);
  const watched = MAPS[map];
  if (entry === null || !watched || entry.get(field) !== after) return false;
  const isOwnDeletion = step.some((one) => one.map === map && one.id === id && one.field === 'deleted');
  return isOwnDeletion || !isDeleted(entry, watched);
};

const takeBack = (doc: Y.Doc, change: Change): void => {
  const { map, id, field, before } = change;
  const held = field === null ? doc.getMap<unknown>(map) : entryOf(doc, change);
  const key = field ?? id;
  if (before === undefined) held?.delete(key);
  else if (isFields(before)) writeEntry(doc.getMap<unknown>(map), id, before);
  else held?.set(key, before);
};

/**
 * Steps are taken back one at a time, the last first, value by value: where a place still holds what the step wrote,
 * it holds again what it held before. What another has written since stays; where that is all of the step, or in
 * something that the step has made, nothing is taken back and the step is over.
 * @param origin of one's own changes
 */
export const ownSteps = (doc: Y.Doc, origin: unknown): OwnSteps => {
  const done: Step[] = [];
  const undone: Step[] = [];
  const state = settable({ canUndo: false, canRedo: false });
  const notice = () => {
    const next = { canUndo: done.length > 0, canRedo: undone.length > 0 };
    const now = state.get();
    if (next.canUndo !== now.canUndo || next.canRedo !== now.canRedo) state.set(next);
  };
  let changed: Change[] = [];
  const watches = Object.keys(MAPS).map((name) => {
    const hear = (events: readonly Y.YEvent<Y.AbstractType<unknown>>[], by: Y.Transaction) => {
      if (by.origin === origin) changed.push(...events.flatMap((event) => changesOf(name, event)));
    };
    const map = doc.getMap<unknown>(name);
    map.observeDeep(hear);
    return () => map.unobserveDeep(hear);
  });
  const endOfStep = () => {
    const step = changed.filter(({ before, after }) => !isSame(before, after));
    changed = [];
    if (step.length === 0) return;
    done.push(step);
    undone.length = 0;
    notice();
  };
  doc.on('afterTransaction', endOfStep);

  const take = (from: Step[], to: Step[]): StepTaken | null => {
    const step = from.pop();
    if (step === undefined) return null;
    const standing = step.filter((change) => stands(doc, step, change));
    const kept = step.filter((change) => !standing.includes(change));
    const isOver =
      standing.length === 0 || kept.some(({ field, after }) => field === null && isFields(after));
    if (!isOver) {
      doc.transact(() => {
        for (const change of standing) takeBack(doc, change);
      });
      to.push(standing.map((change) => ({ ...change, before: change.after, after: change.before })));
    }
    notice();
    return { taken: isOver ? [] : standing.map(placeOf), kept: kept.map(placeOf) };
  };
  return {
    undo: () => take(done, undone),
    redo: () => take(undone, done),
    state,
    close: () => {
      doc.off('afterTransaction', endOfStep);
      for (const end of watches) end();
    },
  };
};
