import type * as Y from 'yjs';

/*
 * A place in a chart where somebody writes, by name: 'bars.b1.text', 'sections.s1.label', 'road.r1.times', and a line
 * of the header as 'head.tempo'.
 */

const MAPS = ['head', 'sections', 'road', 'bars'] as const;

/** What stands at a place in the document, also within a transaction; '' where nothing does. */
export const textIn = (doc: Y.Doc, place: string): string => {
  const [name, id = '', field = ''] = place.split('.');
  const held = doc.getMap<unknown>(name).get(id);
  const text = name === 'head' ? held : (held as Y.Map<unknown> | undefined)?.get(field);
  return typeof text === 'string' ? text : '';
};

/** Where a place is marked as changed: a bar as a whole, by its id. */
export const markedAt = (place: string): string => {
  const [name, id] = place.split('.');
  return name === 'bars' && id !== undefined ? id : place;
};

/** The places that an event touched; of what is new only the bars, which are made by typing. */
const placesOf = (
  name: (typeof MAPS)[number],
  { path, target, changes }: Y.YEvent<Y.AbstractType<unknown>>,
): string[] => {
  const keys = [...changes.keys.keys()];
  const [id] = path;
  if (name === 'head') return keys.map((word) => `head.${word}`);
  if (id !== undefined) return keys.map((field) => `${name}.${id}.${field}`);
  if (name !== 'bars') return [];
  return keys.flatMap((bar) => {
    const entry = (target as Y.Map<Y.Map<unknown> | undefined>).get(bar);
    return [...(entry?.keys() ?? [])].map((field) => `bars.${bar}.${field}`);
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
