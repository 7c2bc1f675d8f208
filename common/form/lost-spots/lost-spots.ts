import type { BarMusic } from '../../chart/bar-music.ts';
import { CONCERT, type Reading } from '../../theory/transpose.ts';
import type { Road, RoadBar } from '../road.ts';
import { breakSpots } from './breaks.ts';
import { keySpots, metreSpots } from './changes.ts';
import { formLengthSpots } from './form-length.ts';
import { type HeardPass, hearPasses } from './heard-pass.ts';
import { longChordSpots } from './long-chords.ts';
import type { Finder, LostKind, LostSpot } from './lost-spot.ts';
import { oddPhraseSpots } from './odd-phrases.ts';
import { partingSpots } from './parting-phrases.ts';
import { seamSpots } from './seam.ts';

/** A spot that somebody of the band knows of. */
export interface AddedSpot {
  readonly id: string;
  /** Of the written bar where it lies. */
  readonly bar: string;
  /** In few words, as they are to be announced. */
  readonly words: string;
}

export interface LostSpotOptions {
  /** Ids of spots that the band knows well enough. */
  readonly dismissed?: readonly string[];
  readonly added?: readonly AddedSpot[];
  /** In which chords and keys are named; concert where none is given. */
  readonly reading?: Reading;
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
  const { dismissed = [], added = [], reading = CONCERT, music } = options;
  const musicOf = (bar: RoadBar): BarMusic => music?.get(bar.id) ?? bar.content.music;
  const finders: readonly Finder[] = [
    seamSpots,
    formLengthSpots,
    oddPhraseSpots,
    partingSpots,
    breakSpots,
    metreSpots,
    keySpots(reading),
    longChordSpots,
  ];
  return hearPasses(road.legs, musicOf, reading).map((pass) => ({
    leg: pass.leg.id,
    spots: [...finders.flatMap((find) => find(pass)), ...addedIn(pass, added)]
      .filter(({ id }) => !dismissed.includes(id))
      .map((spot) => ({ ...spot, weight: weightIn(pass, spot), announceFromBar: announceFrom(pass, spot) }))
      .sort((a, b) => b.weight - a.weight || a.fromBar - b.fromBar),
  }));
};

const addedIn = ({ bars }: HeardPass, added: readonly AddedSpot[]): LostSpot[] =>
  added.flatMap(({ id, bar, words }) =>
    bars.flatMap((each, at): LostSpot[] =>
      each.id === bar
        ? [
            {
              id,
              kind: 'added',
              fromBar: at,
              toBar: at,
              atBar: at,
              weight: ADDED_WEIGHT,
              reason: words,
              announce: words,
            },
          ]
        : [],
    ),
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
