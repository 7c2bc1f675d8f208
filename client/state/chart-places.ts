import type * as Y from 'yjs';

/*
 * A place in a chart where somebody writes, by name: 'bars.b1.text', 'sections.s1.label', 'road.r1.times', and a line
 * of the header as 'head.tempo'.
 */

const MAPS = ['head', 'sections', 'road', 'bars'] as const;

/** What a place holds in the document, also within a transaction; undefined where nothing does. */
export const valueAt = (doc: Y.Doc, place: string): unknown => {
  const [name, id = '', field = ''] = place.split('.');
  const held = doc.getMap<unknown>(name).get(id);
  return name === 'head' ? held : (held as Y.Map<unknown> | undefined)?.get(field);
};

/** The place that says that a bar, section or leg was made. */
export const madeAt = (place: string): string => `${place.split('.').slice(0, 2).join('.')}.made`;

/** Where a place is marked as changed: a bar as a whole, by its id. */
export const markedAt = (place: string): string => {
  const [name, id] = place.split('.');
  return name === 'bars' && id !== undefined ? id : place;
};

/** The places that an event touched; all of a bar, section or leg that is new, and that it was made. */
const placesOf = (
  name: (typeof MAPS)[number],
  { path, target, changes }: Y.YEvent<Y.AbstractType<unknown>>,
): string[] => {
  const keys = [...changes.keys.keys()];
  const [id] = path;
  if (name === 'head') return keys.map((word) => `head.${word}`);
  if (id !== undefined) return keys.map((field) => `${name}.${id}.${field}`);
  return keys.flatMap((made) => {
    const entry = (target as Y.Map<Y.Map<unknown> | undefined>).get(made);
    return ['made', ...(entry?.keys() ?? [])].map((field) => `${name}.${made}.${field}`);
  });
};

/**
 * Tells which places each transaction has touched.
 * @returns ends it
 */
export const watchPlaces = (
  doc: Y.Doc,
  heard: (places: readonly string[], transaction: Y.Transaction) => void,
): (() => void) => {
  const ends = MAPS.map((name) => {
    const map = doc.getMap<unknown>(name);
    const notice = (events: readonly Y.YEvent<Y.AbstractType<unknown>>[], transaction: Y.Transaction) => {
      const places = events.flatMap((event) => placesOf(name, event));
      if (places.length > 0) heard(places, transaction);
    };
    map.observeDeep(notice);
    return () => map.unobserveDeep(notice);
  });
  return () => {
    for (const end of ends) end();
  };
};
