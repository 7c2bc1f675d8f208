import type { LineRole } from './stand-lines.ts';

/** Where lines can stand, and how large: empty elements in the roll's grid that `roll.css` sizes. */
export const ROLL_PLACES = ['past', 'now', 'next', 'grown', 'later', 'low'] as const;
type PlaceName = (typeof ROLL_PLACES)[number];

/** How the lines of a roll come to their places. */
export interface RollPlaces {
  /**
   * Measures the places, and the chords of lines that are new, as far as that was not done before.
   * @param resized the roll has another size: all is measured anew
   */
  readonly fit: (roll: HTMLElement, resized: boolean) => void;
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
 * A line is laid out once, as the one being played, and stands everywhere else by transforms alone (`roll.css` has
 * them, for each part and with their transitions). So a line that takes another part costs no layout, neither in
 * the frame of the bar line nor in those in which it slides. How large a chord would be elsewhere, and where its
 * foot would stand, is put beside it here in custom properties.
 */
export const rollPlaces = (): RollPlaces => {
  let fitted = new WeakMap<Element, string>();
  let places: Readonly<Record<PlaceName, Place>> | null = null;
  return {
    fit: (roll, resized) => {
      if (resized) {
        fitted = new WeakMap();
        places = null;
        roll.dataset['still'] = '';
      }
      const rows = [...roll.querySelectorAll<HTMLElement>('.bar-row')];
      const fresh = rows.filter((row) => fitted.get(row) !== signature(row));
      if (fresh.length === 0) return;
      // Read first, then write: a layout for each chord would be many.
      const now = places ?? measurePlaces(roll);
      const foot = places === null ? footOf(fresh[0]) : null;
      const sizes = fresh.map((row) => Number.parseFloat(getComputedStyle(row).fontSize));
      if (foot !== null) writePlaces(roll, now, foot);
      places = now;
      fresh.forEach((row, nth) => {
        fitted.set(row, signature(row));
        for (const name of ROLL_PLACES) {
          if (name !== 'now') row.style.setProperty(`--${name}-scale`, scaleTo(now[name], sizes[nth] ?? 1));
        }
      });
    },
    to: (roll, parts, growing, moving) => {
      const lines = [...roll.querySelectorAll<HTMLElement>('[data-line]')];
      const part = (line: HTMLElement) => parts.get(line.dataset['line'] ?? '') ?? 'gone';
      const changed = lines.filter((line) => line.dataset['role'] !== part(line));
      if (changed.length === 0 && 'growing' in roll.dataset === growing) return;
      roll.toggleAttribute('data-still', !moving);
      for (const line of changed) line.dataset['role'] = part(line);
      roll.toggleAttribute('data-growing', growing);
    },
  };
};

/** A place as `roll.css` makes it, px: its box, the head of its bars, its chords and the room under them. */
interface Place {
  readonly top: number;
  readonly height: number;
  readonly head: number;
  readonly size: number;
  readonly base: number;
  /** Height of what stands under the chords. */
  readonly help: number;
}

const measurePlaces = (roll: HTMLElement): Record<PlaceName, Place> =>
  Object.fromEntries(ROLL_PLACES.map((name) => [name, measurePlace(roll, name)])) as Record<PlaceName, Place>;

const measurePlace = (roll: HTMLElement, name: PlaceName): Place => {
  const element = roll.querySelector(`[data-place="${name}"]`);
  if (element === null) throw new Error(`the roll has no place called ${name}`);
  const { top, height } = element.getBoundingClientRect();
  const style = getComputedStyle(element);
  return {
    top,
    height,
    head: Number.parseFloat(style.scrollPaddingTop),
    size: Number.parseFloat(style.fontSize),
    base: Number.parseFloat(style.scrollPaddingBottom),
    help: Number.parseFloat(style.scrollMarginBottom),
  };
};

/** Where the chords of a line stand, and what is under them, px under its top, wherever the line itself stands now. */
const footOf = (row: HTMLElement | undefined): Foot => {
  const top = row?.closest('.line')?.getBoundingClientRect().top ?? 0;
  const help = row?.closest('.bar')?.querySelector('.help-row');
  return {
    chords: (row?.getBoundingClientRect().bottom ?? 0) - top,
    help: (help?.getBoundingClientRect().bottom ?? 0) - top,
  };
};

interface Foot {
  readonly chords: number;
  readonly help: number;
}

/** Between what stands under the chords and the foot of a line that is not played, px. */
const UNDER_HELP = 8;

const writePlaces = (roll: HTMLElement, places: Record<PlaceName, Place>, foot: Foot): void => {
  const { now } = places;
  for (const name of ROLL_PLACES) {
    const { top, height, base, help } = places[name];
    const put = (what: string, value: number, unit: string) =>
      roll.style.setProperty(`--${name}-${what}`, `${value.toFixed(3)}${unit}`);
    if (name === 'now') continue;
    put('top', top - now.top, 'px');
    put('bars', now.height > 0 ? height / now.height : 1, '');
    put('ticks', height - now.height, 'px');
    put('letter', (height - now.height) / 2, 'px');
    put('foot', height - base - foot.chords, 'px');
    put('under', height - UNDER_HELP - foot.help, 'px');
    put('under-scale', now.help > 0 ? help / now.help : 1, '');
  }
};

/** A chord is never larger than where its line is played, and keeps clear of the bar's head. */
const scaleTo = ({ height, head, size, base }: Place, playedSize: number): string =>
  Math.max(0, Math.min(1, Math.min(size, (height - head - base) / 0.96) / playedSize)).toFixed(4);

/** What the size of a bar's chords depends on, besides the size of the roll. */
const signature = (row: HTMLElement): string => {
  const bar = row.closest('.bar');
  const columns = row.closest<HTMLElement>('.line-bars')?.style.gridTemplateColumns ?? '';
  return `${row.style.getPropertyValue('--w')} ${columns} ${bar?.firstElementChild?.textContent ?? ''}`;
};
