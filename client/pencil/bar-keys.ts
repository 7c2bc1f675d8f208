import type { KeyboardEvent } from 'react';
import type { Chart } from '../../common/chart/chart.ts';
import type { ChartHandle } from '../state/chart-handle.ts';
import { deleteChosen, duplicateChosen, moveChosen } from './bar-tools.ts';
import { chosenIn, type Editing } from './editing.ts';
import { focusBar } from './focus-bar.ts';
import { barBeside, barsInOrder } from './neighbours.ts';
import type { AfterTool } from './tool.ts';

/** What was done by a tool or a key is at hand now. */
export const goOnFrom = (editing: Editing, after: AfterTool): void => {
  if (after === null) return;
  if ('open' in after) editing.open(after.open, after.draft);
  else editing.chooseAll(after.choose);
};

/**
 * Keys while the keyboard is on a bar that is not being typed into: arrows go (with Shift they take along, with Alt they
 * move the bars), Home and End, Delete, Ctrl+D doubles, Ctrl+A takes all, Escape lets go, and any letter begins to type.
 * @returns whether the key was meant for the bars
 */
export const pressBarKey = (
  event: KeyboardEvent,
  { handle, chart, editing, perLine }: PressedIn,
): boolean => {
  const state = editing.get();
  const bar = event.target instanceof HTMLElement ? event.target.dataset['barKey'] : undefined;
  if (bar === undefined) return false;
  const all = barsInOrder(chart).map((at) => at.bar.id);
  const mayEdit = handle.canEdit;
  const at = { handle, chart, chosen: state.bar === bar ? chosenIn(chart, state) : [bar] };
  const does = (after: AfterTool) => {
    goOnFrom(editing, after);
    focusBar(editing.get().bar);
    return true;
  };
  const goTo = (next: string | null | undefined) => {
    if (next === null || next === undefined) return true;
    // The first arrow with Shift begins at the bar that the keyboard is on.
    if (event.shiftKey && state.bar === null) editing.choose(bar);
    editing.choose(next, event.shiftKey);
    focusBar(next);
    return true;
  };
  const isCommand = event.ctrlKey || event.metaKey;
  const step = { ArrowRight: 1, ArrowLeft: -1, ArrowDown: perLine, ArrowUp: -perLine }[event.key];
  if (step !== undefined && !isCommand) {
    if (!event.altKey) return goTo(barBeside(chart, state.bar ?? bar, step));
    return mayEdit && (step === 1 || step === -1) ? does(moveChosen(at, step)) : false;
  }
  if (event.key === 'Home') return goTo(all[0]);
  if (event.key === 'End') return goTo(all.at(-1));
  if (event.key === 'Escape') {
    if (state.mode !== 'edit') editing.touchTo('edit');
    else editing.choose(bar);
    return true;
  }
  if (isCommand && event.key.toLowerCase() === 'a') {
    editing.chooseAll(all);
    focusBar(all.at(-1) ?? null);
    return true;
  }
  if (!mayEdit) return false;
  if (isCommand && event.key.toLowerCase() === 'd') return does(duplicateChosen(at));
  if (event.key === 'Delete' || event.key === 'Backspace') return does(deleteChosen(at));
  if (event.key.length === 1 && event.key !== ' ' && !isCommand && !event.altKey) {
    editing.open(bar, { text: event.key, caret: 'end' });
    return true;
  }
  return false;
};

interface PressedIn {
  readonly handle: ChartHandle;
  readonly chart: Chart;
  readonly editing: Editing;
  readonly perLine: number;
}
