import type { Cue } from '../stage/cue.ts';
import { semitonesAt } from '../stage/in-force.ts';
import type { Performance } from '../stage/perform.ts';
import type { ComingBar } from '../stage/place.ts';

/** What the cue drill asks for, by the names under which it is scored. */
export const CUE_KINDS = [
  'breakAtTop',
  'break',
  'soloBreak',
  'lastChorus',
  'lastThenMore',
  'oneMore',
  'tag',
  'trade',
  'hold',
  'halfStep',
  'goTo',
] as const;
/** `release` follows a hold and is never chosen by itself. */
export type DrilledCue = (typeof CUE_KINDS)[number] | 'release';

export type Dice = () => number;

/** One of a list by the dice; undefined where it is empty. */
export const thrown = <Item>(items: readonly Item[], dice: Dice): Item | undefined =>
  items[Math.min(items.length - 1, Math.floor(dice() * items.length))];

const TRADED_BARS = 4;
const LEAST_TRADED_PASS = 8;
/** The key goes up to here, then down again. */
const HIGHEST_SEMITONES = 2;

/** Cues of a kind that a leader might call in the bar `coming[at]`, so many bars ahead. */
export const cuesOf = (
  kind: DrilledCue,
  performance: Performance,
  coming: readonly ComingBar[],
  at: number,
  noticeBars: number,
  dice: Dice,
): readonly Cue[] => {
  const here = coming[at];
  if (!here) return [];
  switch (kind) {
    case 'breakAtTop':
      return [{ kind: 'break', bars: breakBars(dice), at: 'pass' }];
    case 'break':
      return [{ kind: 'break', bars: breakBars(dice), at: 'phrase' }];
    case 'soloBreak':
      return [{ kind: 'break', bars: 2, at: 'lastBars' }];
    case 'lastChorus':
    case 'lastThenMore':
      return [{ kind: 'lastChorus' }];
    case 'oneMore':
    case 'tag':
    case 'release':
      return [{ kind }];
    case 'trade':
      return here.passBars < LEAST_TRADED_PASS || here.turn
        ? []
        : [{ kind, bars: TRADED_BARS, players: ['you', 'drums'] }];
    case 'hold':
      return holds(coming[at + noticeBars]);
    case 'halfStep':
      return [halfStep(semitonesAt(performance, here.startMs))];
    case 'goTo':
      return lettersOf(here).map((barIndex) => ({ kind, leg: here.leg.id, barIndex }));
  }
};

const breakBars = (dice: Dice): number => thrown([2, 2, 1], dice) ?? 2;

const holds = (there: ComingBar | undefined): Cue[] =>
  there ? [{ kind: 'hold', leg: there.place.leg, barIndex: there.place.barIndex }] : [];

const halfStep = (semitones: number): Cue =>
  semitones < HIGHEST_SEMITONES
    ? { kind: 'up', semitones: 1 }
    : { kind: 'down', semitones: HIGHEST_SEMITONES };

/** The top and the bars with a rehearsal letter. */
const lettersOf = ({ leg }: ComingBar): number[] =>
  leg.bars.flatMap(({ content }, barIndex) =>
    barIndex === 0 || (content.letter ?? '') !== '' ? [barIndex] : [],
  );
