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
  const before = slide ? new Map(changed.map((line) => [line, line.getBoundingClientRect()])) : null;
  for (const line of changed) line.dataset['role'] = partOf(line, parts);
  if (before === null) return;
  for (const [line, was] of before) {
    const is = line.getBoundingClientRect();
    // A line that was not to be seen has nowhere to come from.
    if (was.height === 0 || is.height === 0) continue;
    line.animate([{ transform: `translateY(${was.top - is.top}px)` }, { transform: 'none' }], {
      duration: ROLL_MS,
      easing: 'cubic-bezier(0.2, 0.7, 0.2, 1)',
    });
  }
};

const partOf = (line: HTMLElement, parts: ReadonlyMap<string, LineRole>): LineRole =>
  parts.get(line.dataset['line'] ?? '') ?? 'gone';
