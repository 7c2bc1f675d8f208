import type * as Y from 'yjs';
import { withoutControls } from '../chart/without-controls.ts';
import {
  asText,
  type Entry,
  editableEntry,
  entriesOf,
  field,
  numberField,
  setFields,
  textField,
  writeEntry,
} from './entry.ts';
import { stampSchema } from './schema-version.ts';

/** What the document `book` holds: the band, its members and the index of its charts. */
export interface Book {
  readonly name: string;
  /** In order of name, then id. */
  readonly members: readonly Member[];
  /** In order of title, then id; deleted charts are among them and carry `deletedAtMs`. */
  readonly charts: readonly ChartEntry[];
}

export interface Member {
  readonly id: string;
  readonly name: string;
  /** Instrument id; '' where none is known. */
  readonly part: string;
}

/** What the book shows of a chart; the chart itself is the document `chart.<id>`. */
export interface ChartEntry {
  readonly id: string;
  readonly title: string;
  readonly by: string;
  /** As written, for example 'Eb blues'. */
  readonly key: string;
  /** Pulses a minute. */
  readonly tempo: number;
  /** The pulse is a dotted quarter, as in 6/8; absent where nobody has said so yet. */
  readonly isCompound?: boolean;
  /** Absent in entries that were made before lengths were kept, until somebody who may write opens the book. */
  readonly length?: ChartLength;
  /** Shared ms at which it was put away; absent while it is in the book. */
  readonly deletedAtMs?: number;
}

/** How long a chart is, as the last one who changed it worked it out. */
export interface ChartLength {
  /** One time through the form. */
  readonly formBars: number;
  /** Played by its road map, without the count-in. */
  readonly lengthMs: number;
  /** How often some of it is played is assumed. */
  readonly isAssumed: boolean;
}

const DEFAULT_TEMPO_BPM = 120;

export const bandOf = (doc: Y.Doc) => doc.getMap<unknown>('band');
const membersOf = (doc: Y.Doc) => doc.getMap<unknown>('members');
export const chartsOf = (doc: Y.Doc) => doc.getMap<unknown>('charts');

// Code units, not the locale of one tablet: every stand lists the book in the same order.
const byName = <Item>(name: (item: Item) => string) => {
  const folded = (item: Item) => name(item).toLowerCase();
  return (a: Item, b: Item) => (folded(a) < folded(b) ? -1 : folded(a) > folded(b) ? 1 : 0);
};

/** Reads the book; fields that are missing or odd are read as empty. Never throws. */
export const readBook = (doc: Y.Doc): Book => ({
  name: withoutControls(asText(bandOf(doc).get('name')) ?? ''),
  members: entriesOf(membersOf(doc))
    .map(([id, entry]) => ({
      id,
      name: withoutControls(textField(entry, 'name')),
      part: textField(entry, 'part'),
    }))
    .sort(byName((member) => member.name)),
  charts: entriesOf(chartsOf(doc))
    .map(([id, entry]) => {
      const deletedAtMs = numberField(entry, 'deletedAtMs');
      const length = readLength(entry);
      const isCompound = field(entry, 'isCompound');
      return {
        id,
        title: textField(entry, 'title'),
        by: textField(entry, 'by'),
        key: textField(entry, 'key'),
        tempo: numberField(entry, 'tempo') ?? DEFAULT_TEMPO_BPM,
        ...(typeof isCompound === 'boolean' ? { isCompound } : {}),
        ...(length === undefined ? {} : { length }),
        ...(deletedAtMs === undefined ? {} : { deletedAtMs }),
      };
    })
    .sort(byName((chart) => chart.title)),
});

const readLength = (entry: Entry): ChartLength | undefined => {
  const formBars = numberField(entry, 'formBars');
  const lengthMs = numberField(entry, 'lengthMs');
  if (formBars === undefined || lengthMs === undefined) return undefined;
  return { formBars, lengthMs, isAssumed: field(entry, 'isAssumed') === true };
};

/** Adds a member, or changes the fields in which it differs. */
export const setMember = (doc: Y.Doc, member: Member, origin?: unknown): void =>
  doc.transact(() => {
    stampSchema(doc);
    const { id, ...fields } = member;
    const entry = editableEntry(membersOf(doc), id);
    if (entry) setFields(entry, fields);
    else writeEntry(membersOf(doc), id, fields);
  }, origin);
