import type { LineRole } from './stand-lines.ts';

const ROLL_MS = 260;
const ROLL = { duration: ROLL_MS, easing: 'cubic-bezier(0.2, 0.7, 0.2, 1)' };

const stepping = (): boolean => window.matchMedia('(prefers-reduced-motion: reduce)').matches;

/** How the lines of a roll come to their places. */
export interface RollMotion {
  /**
   * Gives each drawn line its part; lines without one are gone.
   * @param growing the next line stands larger: eyes are about to go there
   * @param moving false: the lines stand there at once; else those that were seen slide
   */
  readonly to: (
    roll: HTMLElement,
    parts: ReadonlyMap<string, LineRole>,
    growing: boolean,
    moving: boolean,
  ) => void;
}

/**
 * A line is laid out once, where and as large as it will be, and from then on only transforms move it there from
 * where it was seen: no frame of the way waits for a layout, and the page's own thread has nothing to do with it.
 */
export const rollMotion = (): RollMotion => {
  let running: Animation[] = [];
  return {
    to: (roll, parts, growing, moving) => {
      const lines = [...roll.querySelectorAll<HTMLElement>('[data-line]')];
      const part = (line: HTMLElement) => parts.get(line.dataset['line'] ?? '') ?? 'gone';
      const changed = lines.filter((line) => line.dataset['role'] !== part(line));
      if (changed.length === 0 && 'growing' in roll.dataset === growing) return;
      const slides = moving && !stepping();
      // Read first, with what moves now as it is seen now; all writing comes after.
      const before = slides ? lines.filter((line) => isSeen(line.dataset['role'])).map(standing) : [];
      for (const animation of running) animation.cancel();
      running = [];
      for (const line of changed) line.dataset['role'] = part(line);
      roll.toggleAttribute('data-growing', growing);
      if (!slides) return;
      // The layout that this asks for is the one that the frame needs anyway: only transforms follow.
      const seen = before.filter(({ line }) => isSeen(line.dataset['role']));
      const after = seen.map(({ line }) => standing(line));
      running = [
        ...seen.flatMap((was, nth) => slide(was, after[nth] ?? was)),
        ...changed.filter((line) => before.every((was) => was.line !== line)).map(rise),
      ];
    },
  };
};

const isSeen = (role: string | undefined): boolean => role !== undefined && role !== 'gone' && role !== 'far';

/** Where a line stands in the window, and the chords of its bars within it, px. */
interface Standing {
  readonly line: HTMLElement;
  readonly top: number;
  readonly rows: readonly {
    readonly row: HTMLElement;
    readonly left: number;
    readonly foot: number;
    readonly height: number;
  }[];
}

const standing = (line: HTMLElement): Standing => {
  const { top } = line.getBoundingClientRect();
  const rows = [...line.querySelectorAll<HTMLElement>('.bar-row')].map((row) => {
    const { left, bottom, height } = row.getBoundingClientRect();
    return { row, left, foot: bottom - top, height };
  });
  return { line, top, rows };
};

/** The line slides as a whole; in it, the chords grow from their foot, so that each begins as it was seen. */
const slide = (was: Standing, is: Standing): Animation[] => [
  ...move(is.line, `translateY(${was.top - is.top}px)`, was.top !== is.top),
  ...is.rows.flatMap(({ row, left, foot, height }, nth) => {
    const old = was.rows[nth];
    if (old === undefined || old.height === 0 || height === 0) return [];
    const moved = Math.abs(old.foot - foot) > 0.5 || Math.abs(old.height - height) > 0.5;
    const from = `translate(${old.left - left}px, ${old.foot - foot}px) scale(${old.height / height})`;
    return move(row, from, moved);
  }),
];

const move = (element: HTMLElement, transform: string, moves: boolean): Animation[] =>
  moves ? [element.animate([{ transform }, { transform: 'translate(0, 0)' }], ROLL)] : [];

/** A line that was not to be seen comes up from below. */
const rise = (line: HTMLElement): Animation =>
  line.animate([{ transform: 'translateY(40%)', opacity: 0 }, {}], ROLL);
