import type { LineRole } from './stand-lines.ts';

const ROLL_MS = 260;

const stepping = (): boolean => window.matchMedia('(prefers-reduced-motion: reduce)').matches;

/**
 * Gives each drawn line its part and lets the lines that move slide there. Lines without a part are gone.
 * @param moving false: they stand there at once
 */
export const rollTo = (roll: HTMLElement, parts: ReadonlyMap<string, LineRole>, moving: boolean): void => {
  const lines = [...roll.querySelectorAll<HTMLElement>('[data-line]')];
  const changed = lines.filter((line) => line.dataset['role'] !== partOf(line, parts));
  if (changed.length === 0) return;
  const slide = moving && !stepping();
  // All that is read is read before anything is written: a layout in the middle of a frame would make it late.
  const tops = slide ? rowTops(roll) : null;
  const before = slide ? changed.map((line) => line.getBoundingClientRect()) : [];
  for (const line of changed) line.dataset['role'] = partOf(line, parts);
  if (tops === null) return;
  changed.forEach((line, nth) => {
    const was = before[nth];
    const top = tops[ROWS.indexOf(partOf(line, parts))];
    // A line that was not to be seen has nowhere to come from.
    if (was === undefined || was.height === 0 || top === undefined) return;
    line.animate([{ transform: `translateY(${was.top - top}px)` }, { transform: 'none' }], {
      duration: ROLL_MS,
      easing: 'cubic-bezier(0.2, 0.7, 0.2, 1)',
    });
  });
};

/** The lines' parts by the rows of the roll's grid; see `roll.css`. */
const ROWS: readonly LineRole[] = ['past', 'now', 'next', 'later'];

/** Where each row of the grid begins, px from the top of the window. */
const rowTops = (roll: HTMLElement): readonly number[] => {
  const style = getComputedStyle(roll);
  const gap = Number.parseFloat(style.rowGap) || 0;
  let top = roll.getBoundingClientRect().top + (Number.parseFloat(style.paddingTop) || 0);
  return style.gridTemplateRows.split(' ').map((height) => {
    const begins = top;
    top += (Number.parseFloat(height) || 0) + gap;
    return begins;
  });
};

const partOf = (line: HTMLElement, parts: ReadonlyMap<string, LineRole>): LineRole =>
  parts.get(line.dataset['line'] ?? '') ?? 'gone';
