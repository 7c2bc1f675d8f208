import * as Y from 'yjs';

/**
 * A thing with an id in a document (a bar, a section, a member …): a Y.Map of fields under its id, so that two
 * people can change different fields at once. Documents of other programs may hold plain objects, or fields of
 * the wrong type: what can be read is read, the rest counts as absent.
 */
export type Entry = Y.Map<unknown> | Readonly<Record<string, unknown>>;

export const isEntry = (value: unknown): value is Entry =>
  value instanceof Y.Map ||
  (typeof value === 'object' &&
    value !== null &&
    !Array.isArray(value) &&
    !(value instanceof Y.AbstractType) &&
    !(value instanceof Uint8Array));

export const field = (entry: Entry, name: string): unknown =>
  entry instanceof Y.Map ? entry.get(name) : Object.hasOwn(entry, name) ? entry[name] : undefined;

/** A field as text on one line; '' where there is none. A number is read as its digits. */
export const textField = (entry: Entry, name: string): string => asText(field(entry, name)) ?? '';

export const numberField = (entry: Entry, name: string): number | undefined => {
  const value = field(entry, name);
  return typeof value === 'number' && Number.isFinite(value) ? value : undefined;
};

/** Text on one line, or undefined where the value is no text: a line break would tear the printed chart apart. */
export const asText = (value: unknown): string | undefined => {
  const text =
    value instanceof Y.Text
      ? value.toString()
      : typeof value === 'number' && Number.isFinite(value)
        ? String(value)
        : value;
  return typeof text === 'string' ? text.replace(/[\r\n\u2028\u2029]+/g, ' ') : undefined;
};

/** The entries of a map with their ids, sorted by id: the same order whatever way the document came together. */
export const entriesOf = (map: Y.Map<unknown>): [id: string, entry: Entry][] => {
  const found: [string, Entry][] = [];
  map.forEach((value, id) => {
    if (isEntry(value)) found.push([id, value]);
  });
  return found.sort(([a], [b]) => (a < b ? -1 : 1));
};

/** The entry as a Y.Map that can be changed field by field; a plain object is turned into one. */
export const editableEntry = (map: Y.Map<unknown>, id: string): Y.Map<unknown> | null => {
  const entry = map.get(id);
  if (entry instanceof Y.Map) return entry;
  if (!isEntry(entry)) return null;
  return writeEntry(map, id, entry as Readonly<Record<string, unknown>>);
};

/** Puts a new entry into the map. Fields that are undefined are left out. */
export const writeEntry = (
  map: Y.Map<unknown>,
  id: string,
  fields: Readonly<Record<string, unknown>>,
): Y.Map<unknown> => {
  const entry = new Y.Map<unknown>(Object.entries(fields).filter(([, value]) => value !== undefined));
  map.set(id, entry);
  return entry;
};

/** Sets only the fields that differ: an edit that changes nothing sends nothing and hides nobody's change. */
export const setFields = (entry: Y.Map<unknown>, fields: Readonly<Record<string, unknown>>): void => {
  for (const [name, value] of Object.entries(fields)) {
    if (value === undefined) {
      if (entry.has(name)) entry.delete(name);
    } else if (entry.get(name) !== value) entry.set(name, value);
  }
};
