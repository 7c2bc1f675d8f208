import { addBar, addSection, deleteBars, duplicateBars, moveBars } from '../../common/document/edit-chart.ts';
import { makeId } from '../state/make-id.ts';
import { barsInOrder, freeLetter } from './neighbours.ts';
import type { AfterTool, AtHand, Tool } from './tool.ts';
import { addBarsAfter, beginSection } from './write-typed.ts';

const EMPTY_BAR = { text: '', left: '', right: '', ending: '', lineEnd: false };

const barAfter = ({ handle, chart, chosen }: AtHand): AfterTool => {
  const { doc, origin } = handle;
  const all = barsInOrder(chart);
  const at = all.filter(({ bar }) => chosen.includes(bar.id)).at(-1) ?? all.at(-1);
  if (at) return { open: addBarsAfter(handle, at.bar.id, [EMPTY_BAR]) };
  return doc.transact(() => {
    const section = chart.sections.at(-1)?.id ?? addSection(doc, 'A', null, makeId, origin);
    return { open: addBar(doc, section, null, '', makeId, origin) };
  }, origin);
};

/** Deletes the chosen bars; the one after them is at hand then, or the one before. */
export const deleteChosen = ({ handle, chart, chosen }: AtHand): AfterTool => {
  const all = barsInOrder(chart).map(({ bar }) => bar.id);
  const last = all.findLastIndex((id) => chosen.includes(id));
  const next = all[last + 1] ?? all.slice(0, Math.max(0, last)).findLast((id) => !chosen.includes(id));
  deleteBars(handle.doc, chosen, handle.origin);
  return { choose: next === undefined ? [] : [next] };
};

/** Copies the chosen bars behind themselves; the copies are at hand then. */
export const duplicateChosen = ({ handle, chosen }: AtHand): AfterTool => ({
  choose: duplicateBars(handle.doc, chosen, makeId, handle.origin),
});

/** Moves the chosen bars by one place; over the end of a section they go into the next one. */
export const moveChosen = ({ handle, chart, chosen }: AtHand, by: 1 | -1): AfterTool => {
  const all = barsInOrder(chart);
  const moved = all.filter(({ bar }) => chosen.includes(bar.id));
  const edge = by < 0 ? moved[0] : moved.at(-1);
  if (edge === undefined) return null;
  const at = chart.sections.indexOf(edge.section);
  const beside = edge.section.bars[edge.index + by];
  const { doc, origin } = handle;
  if (beside !== undefined) {
    const after = by > 0 ? beside.id : (edge.section.bars[edge.index - 2]?.id ?? null);
    moveBars(doc, chosen, edge.section.id, after, makeId, origin);
  } else {
    // One step over the end of a section goes into its neighbour, empty or not.
    const into = chart.sections[at + by];
    if (into === undefined) return null;
    moveBars(doc, chosen, into.id, by > 0 ? null : (into.bars.at(-1)?.id ?? null), makeId, origin);
  }
  return { choose: chosen };
};

/** Begins a section at the first of the chosen bars; with none, or where one begins there, an empty one follows. */
const newSection = ({ handle, chart, chosen }: AtHand): AfterTool => {
  const { doc, origin } = handle;
  const at = barsInOrder(chart).find(({ bar }) => chosen.includes(bar.id));
  const name = freeLetter(chart);
  if (at !== undefined && at.index > 0) {
    beginSection(handle, at, name);
    return { choose: chosen };
  }
  return doc.transact(() => {
    const after = at?.section.id ?? chart.sections.at(-1)?.id ?? null;
    const section = addSection(doc, name, after, makeId, origin);
    return { open: addBar(doc, section, null, '', makeId, origin) };
  }, origin);
};

/** The tools for whole bars, in their places. */
export const BAR_TOOLS: readonly Tool[] = [
  { id: 'barAfter', name: 'bar after', sign: { letter: '|' }, needsBars: false, use: barAfter },
  { id: 'upTo', name: 'from–to', sign: { letter: '⇥' }, needsBars: true, tray: 'upTo' },
  { id: 'duplicate', name: 'duplicate', sign: { letter: '‖+' }, needsBars: true, use: duplicateChosen },
  { id: 'move', name: 'move', sign: { letter: '↔' }, needsBars: true, tray: 'move' },
  { id: 'copy', name: 'copy', sign: { letter: '‖→' }, needsBars: true, tray: 'copy' },
  { id: 'delete', name: 'delete', sign: { letter: '✕' }, needsBars: true, use: deleteChosen },
  { id: 'section', name: 'section', sign: { letter: 'A' }, needsBars: false, use: newSection },
  { id: 'transpose', name: 'transpose', sign: 'sharp', needsBars: false, tray: 'transpose' },
];
