import type * as Y from 'yjs';
import { type Bar, type Chart, HEAD_WORDS } from '../chart/chart.ts';
import type { MakeId } from '../ids.ts';
import { roomForBars } from './bar-places.ts';
import {
  barsOf,
  headOf,
  linesOf,
  livingEntries,
  RECOVERED,
  readChartDocument,
  roadOf,
  sectionsOf,
} from './chart-document.ts';
import {
  isDeleted,
  markDeleted,
  WATCHED_IN_BARS,
  WATCHED_IN_LINES,
  WATCHED_IN_ROAD,
  WATCHED_IN_SECTIONS,
  type Watched,
} from './deletion.ts';
import { editableEntry, setFields, textField, writeEntry } from './entry.ts';
import { makeRoom } from './make-room.ts';
import { matchCharts } from './match-chart.ts';
import { risingValues } from './match-lists.ts';
import { stampSchema } from './schema-version.ts';

/**
 * Makes the chart in the document what somebody rewrote it to be, in one transaction and with the smallest set of
 * edits: bars found again keep their ids, and only what differs between `base` and `next` is written. What others
 * changed since `base` survives: a bar they wrote is not deleted, a bar they added stays.
 *
 * Law: where nobody else changed anything, the document then reads as `next`, ids aside.
 * @param next the chart as rewritten; its own ids are not used
 * @param base the chart as it was when the rewriting began
 */
export const applyChart = (
  doc: Y.Doc,
  next: Chart,
  makeId: MakeId,
  origin?: unknown,
  base: Chart = readChartDocument(doc),
): void =>
  doc.transact(() => {
    stampSchema(doc);
    for (const word of HEAD_WORDS) {
      if (base.head[word] !== next.head[word]) setFields(headOf(doc), { [word]: next.head[word] });
    }
    const same = matchCharts(base, next);
    const ids = new Map<string, string>([
      ['', ''],
      ['road', 'road'],
      ...HEAD_WORDS.map((word) => [word, word] as const),
    ]);
    const idFor = (id: string) => {
      const known = ids.get(id) ?? same.get(id) ?? makeId();
      ids.set(id, known);
      return known;
    };

    applyList(sectionsOf(doc), WATCHED_IN_SECTIONS, {
      base: base.sections.map(({ id, label }) => ({ id, label })),
      next: next.sections.map(({ id, label }) => ({ id: idFor(id), label })),
      makeId,
    });
    applyBars(doc, base, next, idFor, makeId);
    applyList(roadOf(doc), WATCHED_IN_ROAD, {
      base: base.road,
      next: next.road.map((line) => ({ ...line, id: idFor(line.id) })),
      makeId,
    });
    // A line may come after one that is read later: all get their ids first.
    for (const { id } of next.lines) idFor(id);
    applyList(linesOf(doc), WATCHED_IN_LINES, {
      base: base.lines,
      next: next.lines.map((line) => ({ ...line, id: idFor(line.id), after: idFor(line.after) })),
      makeId,
    });
  }, origin);

interface Item {
  readonly id: string;
}

/** The fields of a thing besides its id. */
const fieldsOf = ({ id: _, ...fields }: Item): Readonly<Record<string, unknown>> => fields;

/** Edits one list of things that know their own order. */
const applyList = (
  map: Y.Map<unknown>,
  watched: Watched,
  lists: { readonly base: readonly Item[]; readonly next: readonly Item[]; readonly makeId: MakeId },
): void => {
  const { base, next, makeId } = lists;
  const before = new Map(base.map((item, index) => [item.id, { item, index }]));
  const staying = risingValues(next.map(({ id }) => before.get(id)?.index ?? null));
  const kept = new Set(next.map(({ id }) => id));
  for (const item of base) if (!kept.has(item.id)) deleteUnchanged(map, watched, item);
  let after: string | null = null;
  for (const item of next) {
    const known = before.get(item.id);
    const changes = known ? changesBetween(known.item, item) : fieldsOf(item);
    const isThere = known !== undefined && map.has(item.id);
    // Another program may have removed it for good: only what was rewritten comes back.
    if (known && !isThere && Object.keys(changes).length === 0) continue;
    const entry = isThere ? editableEntry(map, item.id) : writeEntry(map, item.id, fieldsOf(item));
    if (!entry) continue;
    if (isThere) setFields(entry, changes);
    if (!isThere || !staying.has(known.index)) {
      const siblings = livingEntries(map, watched).filter(({ id }) => id !== item.id);
      setFields(entry, { order: makeRoom(map, siblings, after, 1, makeId)[0] });
    }
    after = item.id;
  }
};

const applyBars = (
  doc: Y.Doc,
  base: Chart,
  next: Chart,
  idFor: (id: string) => string,
  makeId: MakeId,
): void => {
  const map = barsOf(doc);
  const before = new Map<string, { readonly bar: Bar; readonly section: string; readonly index: number }>();
  for (const section of base.sections) {
    section.bars.forEach((bar, index) => {
      before.set(bar.id, { bar, section: section.id, index });
    });
  }
  const kept = new Set(next.sections.flatMap(({ bars }) => bars.map(({ id }) => idFor(id))));
  for (const { bar, section } of before.values()) {
    if (kept.has(bar.id)) continue;
    // Bars in "recovered" still name the section that they lost.
    const was = section === RECOVERED ? bar : { ...bar, section };
    deleteUnchanged(map, WATCHED_IN_BARS, was);
  }

  for (const section of next.sections) {
    const sectionId = idFor(section.id);
    const bars = section.bars.map((bar) => ({ ...bar, id: idFor(bar.id) }));
    const staying = risingValues(
      bars.map(({ id }) => {
        const known = before.get(id);
        return known?.section === sectionId ? known.index : null;
      }),
    );
    let after: string | null = null;
    let block: Bar[] = [];
    const place = () => {
      const moving = new Set(block.map(({ id }) => id));
      const orders = roomForBars(doc, sectionId, after, block.length, makeId, moving);
      block.forEach(({ id, ...fields }, index) => {
        const entry = before.has(id) ? editableEntry(map, id) : null;
        if (entry) setFields(entry, { section: sectionId, order: orders[index] });
        else writeEntry(map, id, { ...fields, section: sectionId, order: orders[index] });
        after = id;
      });
      block = [];
    };
    for (const bar of bars) {
      const known = before.get(bar.id);
      if (known) {
        const entry = editableEntry(map, bar.id);
        if (entry) setFields(entry, changesBetween(known.bar, bar));
      }
      if (known?.section === sectionId && staying.has(known.index)) {
        place();
        after = bar.id;
      } else block.push(bar);
    }
    place();
  }
};

/** The fields in which a thing was rewritten: what others changed in its other fields stays. */
const changesBetween = (was: Item, is: Item): Readonly<Record<string, unknown>> => {
  const old = fieldsOf(was);
  return Object.fromEntries(Object.entries(fieldsOf(is)).filter(([name, value]) => old[name] !== value));
};

/** Deletes a thing unless somebody else wrote into it since: then it stays, as with any deletion. */
const deleteUnchanged = (map: Y.Map<unknown>, watched: Watched, was: Item): void => {
  const entry = editableEntry(map, was.id);
  if (!entry || isDeleted(entry, watched)) return;
  const old = fieldsOf(was);
  const isChanged = watched.some((name) => name in old && textField(entry, name) !== old[name]);
  if (!isChanged) markDeleted(entry, watched);
};
