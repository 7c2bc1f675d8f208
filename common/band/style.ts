import type { MannerFrom } from '../stage/passages.ts';
import type { BassManner } from './bass-patterns.ts';
import type { Speed } from './beats.ts';
import type { DrumManner } from './drum-patterns.ts';
import type { RhythmFeel } from './rhythm-library.ts';

/** What a feel means for a rhythm section. */
export interface Style {
  readonly name: string;
  /** How long the first eighth is against the second; 'by tempo' as drummers play it. */
  readonly swing: number | 'by tempo';
  readonly bass: BassManner;
  readonly drums: DrumManner;
  readonly comping: RhythmFeel;
}

/** The feels that charts name. Common practice, no source. */
const STYLES = {
  swing: { name: 'swing', swing: 'by tempo', bass: 'walking', drums: 'swing', comping: 'swing' },
  straight: { name: 'straight', swing: 1, bass: 'eighths', drums: 'straight', comping: 'straight' },
  sixteenths: { name: 'sixteenths', swing: 1, bass: 'funk', drums: 'funk', comping: 'funk' },
  shuffle: { name: 'shuffle', swing: 2, bass: 'walking', drums: 'shuffle', comping: 'shuffle' },
  bossa: { name: 'bossa', swing: 1, bass: 'bossa', drums: 'bossa', comping: 'bossa' },
  latin: { name: 'latin', swing: 1, bass: 'latin', drums: 'latin', comping: 'latin' },
  funk: { name: 'funk', swing: 1, bass: 'funk', drums: 'funk', comping: 'funk' },
  waltz: { name: 'waltz', swing: 'by tempo', bass: 'waltz', drums: 'swing', comping: 'waltz' },
  brushes: { name: 'brushes', swing: 'by tempo', bass: 'walking', drums: 'brushes', comping: 'swing' },
  ballad: { name: 'ballad', swing: 2, bass: 'two', drums: 'ballad', comping: 'ballad' },
} as const satisfies Record<string, Style>;

/** Words by which a feel is known, those that say more first. */
const WORDS: readonly (readonly [RegExp, Style])[] = [
  [/16th|sixteenth/i, STYLES.sixteenths],
  [/shuffle/i, STYLES.shuffle],
  [/bossa|samba/i, STYLES.bossa],
  [/latin|afro|mambo|cha/i, STYLES.latin],
  [/funk/i, STYLES.funk],
  [/waltz/i, STYLES.waltz],
  [/brush/i, STYLES.brushes],
  [/ballad/i, STYLES.ballad],
  [/straight|8th|eighth|rock|pop|even/i, STYLES.straight],
  [/swing/i, STYLES.swing],
];

/** The style that words name, `null` where they name none: 'medium swing', 'straight 16ths', 'brushes, slow'. */
export const styleNamed = (words: string): Style | null =>
  WORDS.find(([word]) => word.test(words))?.[1] ?? null;

/** How a band plays in some bar. */
export interface Playing {
  readonly style: Style;
  readonly speed: Speed;
  /** In two or in four, where the chart or a leader says so. */
  readonly motion: 'two' | 'four' | null;
}

const SPEEDS: Readonly<Record<string, Speed>> = { 'half-time': 'half', 'double-time': 'double' };

/**
 * How the band plays by all that was called and written so far: the last feel that names a style, under what only
 * changes its speed or says in two, in four. Swing where nobody has said anything.
 * @param head the feel of the chart's head, in free words
 */
export const playingBy = (head: string, manners: readonly MannerFrom[]): Playing => {
  let style = styleNamed(head) ?? STYLES.swing;
  let speed: Speed = 'plain';
  let motion: Playing['motion'] = /\bin 2\b|two-feel/i.test(head) ? 'two' : null;
  for (const { manner } of manners) {
    const written = manner.writtenFeel ?? '';
    const named = styleNamed(written);
    style = named ?? style;
    if (written === 'in 2') motion = 'two';
    else if (written === 'in 4') motion = 'four';
    else if (named) motion = null;
    speed = manner.feel ?? SPEEDS[written] ?? 'plain';
  }
  return { style, speed, motion };
};
