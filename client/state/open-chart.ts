import type { Board } from './board.ts';
import type { ChartHandle } from './chart-handle.ts';
import type { ChartShelf, OnShelf } from './chart-shelf.ts';
import { keepEntry } from './keep-entry.ts';
import { openChartHandle } from './open-chart-handle.ts';

/** A view that closes while another opens the same chart must not make it load twice, in ms. */
const KEPT_MS = 2000;

/** Opens a chart's document; the same document for the same id while anybody holds it. */
export const openChart = ({ shelf }: Pick<Board, 'shelf'>, id: string): ChartHandle => {
  const entry = holdChart(shelf, id);
  entry.holders += 1;
  let released = false;
  return {
    ...entry.chart,
    get canEdit() {
      return entry.chart.canEdit;
    },
    release: () => {
      if (released) return;
      released = true;
      entry.holders -= 1;
      shelf.timers.after(KEPT_MS, () => closeIfDone(shelf, id));
    },
  };
};

/** The chart on the shelf, put there if it is not; it is let go when nobody holds it and the relay has all of it. */
export const holdChart = (shelf: ChartShelf, id: string): OnShelf => {
  const known = shelf.held.get(id);
  if (known) return known;
  const { file, watch } = shelf.openFile(id);
  const chart = openChartHandle(id, file, shelf.editor(), () => shelf.mayEdit(id), shelf.timers);
  const watches = [
    watch,
    // What was typed goes to the relay even when nobody looks at the chart any more.
    file.saved.subscribe(() => closeIfDone(shelf, id)),
  ];
  if (shelf.bookDoc) watches.push(keepEntry(shelf.bookDoc, id, file.doc));
  const entry = { file, chart, holders: 0, watches };
  shelf.held.set(id, entry);
  return entry;
};

const closeIfDone = ({ held }: ChartShelf, id: string): void => {
  const entry = held.get(id);
  if (!entry || entry.holders > 0 || entry.file.saved.get() !== 'saved') return;
  held.delete(id);
  for (const end of entry.watches) end();
  entry.chart.close();
};
