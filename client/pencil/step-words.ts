import type { Chart } from '../../common/chart/chart.ts';
import { count } from '../../common/form/count.ts';
import type { StepTaken } from '../state/own-steps.ts';
import { HEAD_LABELS } from './head-labels.ts';
import { barAt, numberOf } from './neighbours.ts';
import { isTypedPlace, wordsAt } from './words-at.ts';

/** So many places are named one by one. */
const NAMED = 3;

const NOUNS: Readonly<Record<string, string>> = {
  bars: 'bar',
  sections: 'section',
  road: 'leg',
  head: 'line',
};

/** The bar, section, leg or header line that a place is in: as people call it, null where it is gone. */
const calledAt = (chart: Chart, place: string): string | null => {
  const [map, id = ''] = place.split('.');
  if (map === 'head') return HEAD_LABELS[id as keyof typeof HEAD_LABELS];
  if (map === 'bars') return barAt(chart, id) === null ? null : `bar ${numberOf(chart, id)}`;
  if (map !== 'road' && map !== 'sections') return null;
  const label =
    map === 'road'
      ? chart.road.find((one) => one.id === id)?.name
      : chart.sections.find((one) => one.id === id)?.label;
  return label === undefined ? null : `${map === 'road' ? 'leg' : 'section'} ${label}`.trim();
};

/** Entries by name, or how many there are of each kind: "bar 2, tempo", "12 bars, 1 section". */
const listed = (chart: Chart, entries: readonly string[]): string => {
  const names = entries.map((entry) => calledAt(chart, entry));
  if (names.length <= NAMED && !names.includes(null)) return names.join(', ');
  const kinds = [...new Set(entries.map((entry) => entry.split('.')[0] ?? ''))];
  return kinds
    .map((kind) =>
      count(entries.filter((entry) => entry.startsWith(`${kind}.`)).length, NOUNS[kind] ?? 'line'),
    )
    .join(', ');
};

/** Fields that are set where something else makes room. */
const BY_THE_WAY = /\.(order|lineEnd)$/;

/** What the places are in, each once; without what has only made room for the rest. */
const entriesOf = (places: readonly string[]): string[] => {
  const meant = places.filter((place) => !BY_THE_WAY.test(place));
  const named = meant.length > 0 ? meant : places;
  return [...new Set(named.map((place) => place.split('.').slice(0, 2).join('.')))];
};

/**
 * What undo or redo has done, or why nothing: "Taken back: bar 2 is “F7” again.", "Tomas has changed bar 2 since:
 * nothing of yours is left to take back there."
 * @param chart as it is after that
 * @param whoAt name of who has lately changed a place
 */
export const stepWords = (
  chart: Chart,
  { taken, kept }: StepTaken,
  which: 'undo' | 'redo',
  whoAt: (place: string) => string | undefined,
): string => {
  const who = kept.map(whoAt).find((name) => name !== undefined) ?? 'Somebody else';
  const over = entriesOf(kept);
  const isGone = over.length > 0 && over.every((entry) => calledAt(chart, entry) === null);
  const changed = isGone ? `${who} has deleted that` : `${who} has changed ${listed(chart, over)}`;
  const back = which === 'undo' ? 'take back' : 'do again';
  if (taken.length === 0 && kept.length > 0)
    return `${changed} since: nothing of yours is left to ${back} there.`;

  const done = which === 'undo' ? 'Taken back' : 'Done again';
  const but = kept.length === 0 ? '' : ` ${changed} since: that stays.`;
  const entries = entriesOf(taken);
  const typed = taken.filter(isTypedPlace);
  const only = entries.length === 1 && typed.length === 1 ? wordsAt(chart, typed[0] ?? '') : null;
  if (only !== null) {
    const text = only.text === '' ? 'empty' : `“${only.text}”`;
    return `${done}: ${only.called} is ${text}${which === 'undo' ? ' again' : ''}.${but}`;
  }
  return entries.length === 0 ? `${done}.` : `${done}: ${listed(chart, entries)}.${but}`;
};
