import type { BarMusic } from '../../chart/bar-music.ts';
import type { NoteNames } from '../../theory/note-name.ts';
import { CONCERT, type Reading } from '../../theory/transpose.ts';
import type { Road, RoadBar } from '../road.ts';
import { breakSpots } from './breaks.ts';
import { keySpots, metreSpots } from './changes.ts';
import { formLengthSpots } from './form-length.ts';
import { type HeardPass, hearPasses } from './heard-pass.ts';
import { longChordSpots } from './long-chords.ts';
import type { Finder, FoundSpot, LostKind, LostSpot } from './lost-spot.ts';
import { oddPhraseSpots } from './odd-phrases.ts';
import { partingSpots } from './parting-phrases.ts';
import { seamSpots } from './seam.ts';

/** A spot that somebody of the band knows of. */
export interface AddedSpot {
  readonly id: string;
  /** Ids of the first and the last of its written bars. */
  readonly from: string;
  readonly to: string;
  /** In few words, as they are to be announced. */
  readonly words: string;
}

export interface LostSpotOptions {
  /** Ids of spots that the band knows well enough. */
  readonly dismissed?: readonly string[];
  readonly added?: readonly AddedSpot[];
  /** In which chords and keys are named; concert where none is given. */
  readonly reading?: Reading;
  /** How the reader calls the notes. */
  readonly names?: NoteNames;
  /** What the bars mean now, by id, where the chart was corrected since the road was made. */
  readonly music?: ReadonlyMap<string, BarMusic>;
}

/** A lost spot with the time at which it is said. */
export interface RankedSpot extends LostSpot {
  /**
   * The bar from which it is announced: the last beginning of a phrase that lies two bars or more before it. Below
   * 0 it lies in the pass before: −4 is four bars before the top.
   */
  readonly announceFromBar: number;
}

export interface LegSpots {
  /** Id of the leg. */
  readonly leg: string;
  /** The likeliest to throw somebody first. */
  readonly spots: readonly RankedSpot[];
}

/** What the melody tells: where it is played, these throw people less. */
const TOLD: readonly LostKind[] = ['seam', 'formLength', 'oddPhrase', 'partsLater', 'longChord'];
const TOLD_FACTOR = 0.8;
const ADDED_WEIGHT = 100;

/**
 * Where players are likely to lose the form, leg by leg, the worst first. `RULES.md` says what each weighs.
 * What the band dismissed is left out, what it added comes first.
 */
export const lostSpots = (road: Road, options: LostSpotOptions = {}): LegSpots[] => {
  const { dismissed = [], added = [], reading = CONCERT, names = 'english', music } = options;
  const reader = { reading, names };
  const musicOf = (bar: RoadBar): BarMusic => music?.get(bar.id) ?? bar.content.music;
  const finders: readonly Finder[] = [
    seamSpots,
    formLengthSpots,
    oddPhraseSpots,
    partingSpots,
    breakSpots,
    metreSpots,
    keySpots(reader),
    longChordSpots,
  ];
  return hearPasses(road.legs, musicOf, reader).map((pass) => ({
    leg: pass.leg.id,
    spots: [
      ...finders.flatMap((find) => find(pass)).map((spot) => named(pass, spot)),
      ...addedIn(pass, added),
    ]
      .filter(({ id }) => !dismissed.includes(id))
      .map((spot) => ({ ...spot, weight: weightIn(pass, spot), announceFromBar: announceFrom(pass, spot) }))
      .sort((a, b) => b.weight - a.weight || a.fromBar - b.fromBar),
  }));
};

const named = (pass: HeardPass, spot: FoundSpot): LostSpot => {
  const bars = barsOf(pass, spot);
  return { ...spot, bars, id: `${spot.kind}:${bars.join(' ')}` };
};

const barsOf = ({ bars, then }: HeardPass, { fromBar, toBar }: FoundSpot): string[] => {
  const all =
    toBar >= fromBar
      ? bars.slice(fromBar, toBar + 1)
      : [...bars.slice(fromBar), ...(then?.bars ?? []).slice(0, toBar + 1)];
  return all.map(({ id }) => id);
};

/** Where its first bar is played, to its last one; that bar alone where the last one doesn't follow in the pass. */
const addedIn = (pass: HeardPass, added: readonly AddedSpot[]): LostSpot[] =>
  added.flatMap(({ id, from, to, words }) =>
    pass.bars.flatMap((each, at): LostSpot[] => {
      if (each.id !== from) return [];
      const last = pass.bars.findIndex((bar, index) => index >= at && bar.id === to);
      const spot: FoundSpot = {
        kind: 'added',
        fromBar: at,
        toBar: Math.max(at, last),
        atBar: at,
        weight: ADDED_WEIGHT,
        reason: words,
        announce: words,
      };
      return [{ ...spot, id, bars: barsOf(pass, spot) }];
    }),
  );

const weightIn = ({ isTold }: HeardPass, { kind, weight }: LostSpot): number =>
  Math.round(isTold && TOLD.includes(kind) ? weight * TOLD_FACTOR : weight);

const LEAST_NOTICE_BARS = 2;

const announceFrom = ({ phrases, bars, goesRound }: HeardPass, { atBar }: LostSpot): number => {
  const starts = phrases.map(({ from }) => from);
  const before = goesRound ? starts.map((from) => from - bars.length) : [];
  const inTime = [...before, ...starts].filter((from) => from <= atBar - LEAST_NOTICE_BARS);
  return inTime.at(-1) ?? 0;
};
