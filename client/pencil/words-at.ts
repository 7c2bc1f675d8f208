import type * as Y from 'yjs';
import { type Chart, HEAD_WORDS, type RoadLine } from '../../common/chart/chart.ts';
import { renameSection, setBarText, setHead, setRoadLine } from '../../common/document/edit-chart.ts';
import { HEAD_LABELS } from './head-labels.ts';
import { barAt, numberOf } from './neighbours.ts';

/** What stands at a place of a chart. */
export interface WordsAt {
  readonly text: string;
  /** As people call the place: 'bar 2', 'tempo', 'times of Solos'. */
  readonly called: string;
  readonly write: (doc: Y.Doc, text: string, origin: unknown) => void;
}

const ROAD_FIELDS: readonly (keyof Omit<RoadLine, 'id'>)[] = ['name', 'sections', 'times', 'words'];
const FIELDS: ReadonlySet<string> = new Set([
  'bars text',
  'sections label',
  ...ROAD_FIELDS.map((one) => `road ${one}`),
]);

/** Whether people type at a place; order, signs and the like are set otherwise. */
export const isTypedPlace = (place: string): boolean => {
  const [map, , field] = place.split('.');
  return map === 'head' || FIELDS.has(`${map} ${field}`);
};

/** What stands at a place (see `watchPlaces`); null where there is no such place, or nobody types there. */
export const wordsAt = (chart: Chart, place: string): WordsAt | null => {
  const [map, id = '', field] = place.split('.');
  if (map === 'head') {
    const word = HEAD_WORDS.find((one) => one === id);
    return word === undefined
      ? null
      : {
          text: chart.head[word] ?? '',
          called: HEAD_LABELS[word],
          write: (doc, text, origin) => setHead(doc, word, text, origin),
        };
  }
  if (map === 'sections') {
    const section = chart.sections.find((one) => one.id === id);
    return section === undefined || field !== 'label'
      ? null
      : {
          text: section.label,
          called: `name of section ${section.label}`,
          write: (doc, text, origin) => renameSection(doc, id, text, origin),
        };
  }
  if (map === 'road') {
    const line = chart.road.find((one) => one.id === id);
    const part = ROAD_FIELDS.find((one) => one === field);
    return line === undefined || part === undefined
      ? null
      : {
          text: line[part],
          called: `${part} of ${line.name || 'a leg'}`,
          write: (doc, text, origin) => setRoadLine(doc, id, { [part]: text }, origin),
        };
  }
  const at = field === 'text' ? barAt(chart, id) : null;
  return at === null
    ? null
    : {
        text: at.bar.text,
        called: `bar ${numberOf(chart, id)}`,
        write: (doc, text, origin) => setBarText(doc, id, text, origin),
      };
};
