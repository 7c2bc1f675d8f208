import type * as Y from 'yjs';
import type { Bar, HeadWord, RoadLine } from '../chart/chart.ts';
import type { MakeId } from '../ids.ts';
import { roomForBars } from './bar-places.ts';
import {
  barsOf,
  headOf,
  livingEntries,
  RECOVERED,
  readChartDocument,
  roadOf,
  sectionsOf,
} from './chart-document.ts';
import {
  markDeleted,
  WATCHED_IN_BARS,
  WATCHED_IN_NOTES,
  WATCHED_IN_ROAD,
  WATCHED_IN_SECTIONS,
} from './deletion.ts';
import { editableEntry, setFields, writeEntry } from './entry.ts';
import { isWholeLines, leaveLineEnds, takeLineEnd } from './line-ends.ts';
import { makeRoom } from './make-room.ts';
import { type Note, notesOf } from './notes.ts';
import { stampSchema } from './schema-version.ts';

/*
 * Every edit is one transaction with the origin given, so that undo finds it; it changes only the fields that
 * differ. An id that the document doesn't know (a bar that came and went) is passed over: two people edit at
 * once. `after` names what the new thing comes after; null puts it first.
 */

/** What a bar holds besides its id. */
export type BarContent = Omit<Bar, 'id'>;
export type BarSigns = Omit<BarContent, 'text'>;

const edit = <Value>(doc: Y.Doc, origin: unknown, change: () => Value): Value =>
  doc.transact(() => {
    stampSchema(doc);
    return change();
  }, origin);

/** Sets a header line; undefined takes it away. */
export const setHead = (doc: Y.Doc, word: HeadWord, value: string | undefined, origin?: unknown): void =>
  edit(doc, origin, () => setFields(headOf(doc), { [word]: value }));

/** Writes a bar. One that somebody has deleted comes back if the text is new: nothing typed is lost. */
export const setBarText = (doc: Y.Doc, bar: string, text: string, origin?: unknown): void =>
  edit(doc, origin, () => {
    const entry = editableEntry(barsOf(doc), bar);
    if (entry) setFields(entry, { text });
  });

export const setBarSigns = (doc: Y.Doc, bar: string, signs: Partial<BarSigns>, origin?: unknown): void =>
  edit(doc, origin, () => {
    const entry = editableEntry(barsOf(doc), bar);
    if (entry) setFields(entry, signs);
  });

/** Adds one bar and gives its id. After a bar that ends a line it goes on with that line. */
export const addBar = (
  doc: Y.Doc,
  section: string,
  after: string | null,
  text: string,
  makeId: MakeId,
  origin?: unknown,
): string => addBars(doc, section, after, [{ text }], makeId, origin)[0] ?? '';

/**
 * Adds bars as one block and gives their ids. Two blocks put into one place at once don't mix. A block that ends
 * no line itself goes on with the line it is put behind.
 */
export const addBars = (
  doc: Y.Doc,
  section: string,
  after: string | null,
  bars: readonly (Partial<BarContent> & { readonly text: string })[],
  makeId: MakeId,
  origin?: unknown,
): string[] =>
  edit(doc, origin, () => {
    const orders = roomForBars(doc, section, after, bars.length, makeId);
    const takesLineEnd = takeLineEnd(doc, after, bars.at(-1)?.lineEnd === true);
    return bars.map((bar, index) => {
      const id = makeId();
      const lineEnd = bar.lineEnd === true || (takesLineEnd && index === bars.length - 1);
      const plain = { left: '', right: '', ending: '', ...bar, lineEnd };
      writeEntry(barsOf(doc), id, { ...plain, section, order: orders[index] });
      return id;
    });
  });

/** Deletes bars; the bar before one that ended a line ends it now. What others type into them meanwhile stays. */
export const deleteBars = (doc: Y.Doc, bars: readonly string[], origin?: unknown): void =>
  edit(doc, origin, () => {
    leaveLineEnds(doc, new Set(bars));
    for (const id of bars) {
      const entry = editableEntry(barsOf(doc), id);
      if (entry) markDeleted(entry, WATCHED_IN_BARS);
    }
  });

/** Copies bars, in the order of the chart, behind the last of them; gives the ids of the copies. */
export const duplicateBars = (
  doc: Y.Doc,
  bars: readonly string[],
  makeId: MakeId,
  origin?: unknown,
): string[] =>
  edit(doc, origin, () => {
    const { sections } = readChartDocument(doc);
    const wanted = new Set(bars);
    const originals = sections.flatMap((section) =>
      section.bars.filter(({ id }) => wanted.has(id)).map((bar) => ({ section: section.id, bar })),
    );
    const last = originals.at(-1);
    if (!last) return [];
    const copies = originals.map(({ bar: { id: _, ...content } }) => content);
    return addBars(doc, last.section, last.bar.id, copies, makeId, origin);
  });

/** Moves bars, ids and all, as one block into a section. `after` must not be one of them. */
export const moveBars = (
  doc: Y.Doc,
  bars: readonly string[],
  section: string,
  after: string | null,
  makeId: MakeId,
  origin?: unknown,
): void =>
  edit(doc, origin, () => {
    const wanted = new Set(bars);
    const { sections } = readChartDocument(doc);
    const moved = sections.flatMap((from) => from.bars.filter(({ id }) => wanted.has(id)));
    if (after !== null && wanted.has(after)) return;
    const last = moved.at(-1);
    if (last && !isWholeLines(sections, moved)) {
      leaveLineEnds(doc, wanted);
      setBarSigns(doc, last.id, { lineEnd: takeLineEnd(doc, after, false) }, origin);
    }
    const orders = roomForBars(doc, section, after, moved.length, makeId, wanted);
    moved.forEach(({ id }, index) => {
      const entry = editableEntry(barsOf(doc), id);
      if (entry) setFields(entry, { section, order: orders[index] });
    });
  });

/** Adds an empty section and gives its id. */
export const addSection = (
  doc: Y.Doc,
  label: string,
  after: string | null,
  makeId: MakeId,
  origin?: unknown,
): string =>
  edit(doc, origin, () => {
    const id = makeId();
    const siblings = livingEntries(sectionsOf(doc), WATCHED_IN_SECTIONS);
    const [order] = makeRoom(sectionsOf(doc), siblings, after, 1, makeId);
    writeEntry(sectionsOf(doc), id, { label, order });
    return id;
  });

/** Renames a section. The road map is text and goes on naming the old one: change it there too. */
export const renameSection = (doc: Y.Doc, section: string, label: string, origin?: unknown): void =>
  edit(doc, origin, () => {
    const entry = editableEntry(sectionsOf(doc), section);
    if (entry) setFields(entry, { label });
    else if (section === RECOVERED) writeEntry(sectionsOf(doc), RECOVERED, { label, order: LAST });
  });

/** After every key that is made by going on from the last. */
const LAST = 'zz';

/** Deletes a section with its bars. Bars that others put or wrote there meanwhile are kept in "recovered". */
export const deleteSection = (doc: Y.Doc, section: string, origin?: unknown): void =>
  edit(doc, origin, () => {
    const bars = readChartDocument(doc).sections.find(({ id }) => id === section)?.bars ?? [];
    deleteBars(
      doc,
      bars.map(({ id }) => id),
      origin,
    );
    const entry = editableEntry(sectionsOf(doc), section);
    if (entry) markDeleted(entry, WATCHED_IN_SECTIONS);
  });

export const moveSection = (
  doc: Y.Doc,
  section: string,
  after: string | null,
  makeId: MakeId,
  origin?: unknown,
): void =>
  edit(doc, origin, () => {
    const map = sectionsOf(doc);
    // "recovered" has no place of its own until somebody gives it one.
    if (section === RECOVERED && !map.has(RECOVERED))
      writeEntry(map, RECOVERED, { label: RECOVERED, order: LAST });
    move(map, WATCHED_IN_SECTIONS, section, after, makeId);
  });

const move = (
  map: Y.Map<unknown>,
  watched: readonly string[],
  id: string,
  after: string | null,
  makeId: MakeId,
): void => {
  const entry = after === id ? null : editableEntry(map, id);
  if (!entry) return;
  const siblings = livingEntries(map, watched).filter((sibling) => sibling.id !== id);
  setFields(entry, { order: makeRoom(map, siblings, after, 1, makeId)[0] });
};

export const setRoadLine = (
  doc: Y.Doc,
  line: string,
  fields: Partial<Omit<RoadLine, 'id'>>,
  origin?: unknown,
): void =>
  edit(doc, origin, () => {
    const entry = editableEntry(roadOf(doc), line);
    if (entry) setFields(entry, fields);
  });

/** Adds a line to the road map and gives its id. */
export const addRoadLine = (
  doc: Y.Doc,
  line: Omit<RoadLine, 'id'>,
  after: string | null,
  makeId: MakeId,
  origin?: unknown,
): string =>
  edit(doc, origin, () => {
    const id = makeId();
    const siblings = livingEntries(roadOf(doc), WATCHED_IN_ROAD);
    const [order] = makeRoom(roadOf(doc), siblings, after, 1, makeId);
    writeEntry(roadOf(doc), id, { ...line, order });
    return id;
  });

export const deleteRoadLine = (doc: Y.Doc, line: string, origin?: unknown): void =>
  edit(doc, origin, () => {
    const entry = editableEntry(roadOf(doc), line);
    if (entry) markDeleted(entry, WATCHED_IN_ROAD);
  });

export const moveRoadLine = (
  doc: Y.Doc,
  line: string,
  after: string | null,
  makeId: MakeId,
  origin?: unknown,
): void => edit(doc, origin, () => move(roadOf(doc), WATCHED_IN_ROAD, line, after, makeId));

/** Pins a note to a bar and gives its id. */
export const addNote = (
  doc: Y.Doc,
  note: Omit<Note, 'id' | 'done'>,
  makeId: MakeId,
  origin?: unknown,
): string =>
  edit(doc, origin, () => {
    const id = makeId();
    const siblings = livingEntries(notesOf(doc), WATCHED_IN_NOTES);
    const [order] = makeRoom(notesOf(doc), siblings, siblings.at(-1)?.id ?? null, 1, makeId);
    writeEntry(notesOf(doc), id, { ...note, done: false, order });
    return id;
  });

export const setNote = (
  doc: Y.Doc,
  note: string,
  fields: Partial<Omit<Note, 'id'>>,
  origin?: unknown,
): void =>
  edit(doc, origin, () => {
    const entry = editableEntry(notesOf(doc), note);
    if (entry) setFields(entry, fields);
  });

export const deleteNote = (doc: Y.Doc, note: string, origin?: unknown): void =>
  edit(doc, origin, () => {
    const entry = editableEntry(notesOf(doc), note);
    if (entry) markDeleted(entry, WATCHED_IN_NOTES);
  });
