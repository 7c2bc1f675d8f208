import type { LineRole } from './stand-lines.ts';

/** Where lines can stand, and how large: empty elements in the roll's grid that `roll.css` sizes. */
export const ROLL_PLACES = ['past', 'now', 'next', 'grown', 'later', 'low'] as const;
type PlaceName = (typeof ROLL_PLACES)[number];

/** Lines that set out in one frame. */
const MOVING_TOGETHER: readonly (readonly LineRole[])[] = [
  ['gone', 'past'],
  ['now'],
  ['next', 'later', 'far'],
];

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
   * @param moving false: the lines stand there at once; else `step` does it, and those that were seen slide
   */
  readonly to: (
    roll: HTMLElement,
    parts: ReadonlyMap<string, LineRole>,
    growing: boolean,
    moving: boolean,
  ) => void;
  /** To be called on every frame: lets the next lines go, then gives each its colours and the size of its words. */
  readonly step: () => void;
}

/**
 * A line is laid out once, as the one being played, and stands everywhere else by transforms alone (`roll.css` has
 * them, for each part and with their transitions). So a line that takes another part costs no layout, neither in
 * the frame of the bar line nor in those in which it slides. How large a chord would be elsewhere, and where its
 * foot would stand, is put beside it here in custom properties.
 *
 * `data-role` says where a line stands, `data-look` what all that is in it takes over from it. For the look each
 * letter gets a new style: for all lines in one frame, a slow tablet would need half a second.
 */
export const rollPlaces = (): RollPlaces => {
  let fitted = new WeakMap<Element, string>();
  let places: Readonly<Record<PlaceName, Place>> | null = null;
  let steps: (() => void)[] = [];
  const step = (): void => steps.shift()?.();
  const finish = (): void => {
    while (steps.length > 0) step();
  };
  return {
    step,
    fit: (roll, resized) => {
      if (resized) {
        fitted = new WeakMap();
        places = null;
        roll.dataset['still'] = '';
      }
      const chords = [...roll.querySelectorAll<HTMLElement>('.bar-row > *')];
      const fresh = chords.filter((chord) => fitted.get(chord) !== signature(chord));
      if (fresh.length === 0) return;
      // Read first, then write: a layout for each chord would be many.
      const now = places ?? measurePlaces(roll);
      const foot = places === null ? footOf(fresh[0]) : null;
      const sizes = fresh.map((chord) => Number.parseFloat(getComputedStyle(chord).fontSize));
      if (foot !== null) writePlaces(roll, now, foot);
      places = now;
      fresh.forEach((chord, nth) => {
        fitted.set(chord, signature(chord));
        for (const name of ROLL_PLACES) {
          if (name !== 'now') chord.style.setProperty(`--${name}-scale`, scaleTo(now[name], sizes[nth] ?? 1));
        }
      });
    },
    to: (roll, parts, growing, moving) => {
      // Lines that were about to slide still do; what comes at once comes on top of that.
      if (!moving) finish();
      const lines = [...roll.querySelectorAll<HTMLElement>('[data-line]')];
      const part = (line: HTMLElement) => parts.get(line.dataset['line'] ?? '') ?? 'gone';
      const moved = lines.filter((line) => line.dataset['role'] !== part(line));
      steps = [];
      // From the top, so that each line goes where there is room; what grows belongs to the lines ahead.
      for (const group of MOVING_TOGETHER) {
        const together = moved.filter((line) => group.includes(part(line)));
        const grows = group.includes('next') && 'growing' in roll.dataset !== growing;
        if (together.length === 0 && !grows) continue;
        steps.push(() => {
          roll.toggleAttribute('data-still', !moving);
          for (const line of together) line.dataset['role'] = part(line);
          if (grows) roll.toggleAttribute('data-growing', growing);
        });
      }
      for (const line of lines) {
        // One that is gone is not seen, whatever it looks like.
        if (part(line) === 'gone' || line.dataset['look'] === part(line)) continue;
        steps.push(() => {
          line.dataset['look'] = part(line);
        });
      }
      if (!moving) finish();
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
const footOf = (chord: HTMLElement | undefined): Foot => {
  const row = chord?.parentElement;
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
const signature = (chord: HTMLElement): string => {
  const row = chord.parentElement;
  const bar = chord.closest('.bar');
  const columns = chord.closest<HTMLElement>('.line-bars')?.style.gridTemplateColumns ?? '';
  return `${row?.style.getPropertyValue('--w')} ${columns} ${bar?.firstElementChild?.textContent ?? ''}`;
};
