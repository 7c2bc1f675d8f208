import type { BarMusic } from '../../../common/chart/bar-music.ts';
import type { Leg, Road, RoadBar } from '../../../common/form/road.ts';
import type { LegHelp, PassHelp, PlacedHelp } from '../../../common/help/help.ts';
import type { HelpWish } from '../../../common/help/road-help.ts';
import { readKey } from '../../../common/theory/key.ts';
import { readingFor } from '../../../common/theory/transpose.ts';
import type { HelpQuestion } from './help-worker.ts';

/** What help is found for: a tune as it stands now, and how one player wants to be helped. */
export interface HelpNeeded {
  readonly road: Road;
  /** What the bars mean now; null until they are read: then the road has it. */
  readonly music: ReadonlyMap<string, BarMusic> | null;
  readonly wish: HelpWish;
  /** Key of the chart's head. */
  readonly chartKey: string;
  /** Semitones of the reader's instrument. */
  readonly semitones: number;
}

/** A bar as it is played: a `ComingBar`, or as much of one as this needs. */
export interface HelpedBar {
  readonly leg: Pick<Leg, 'id'>;
  readonly place: { readonly barIndex: number };
  readonly bar: Pick<RoadBar, 'id' | 'content'>;
  /** By which it is read higher than written. */
  readonly semitones?: number;
}

/** Finds help bar by bar; `null` until it is known. What is not known yet is asked for, once. */
export type FindHelp = (bar: HelpedBar) => readonly PlacedHelp[] | null;

type Ask = (question: Omit<HelpQuestion, 'id'>, done: (legs: readonly LegHelp[]) => void) => () => void;

const NO_MUSIC: ReadonlyMap<string, BarMusic> = new Map();
const NONE: readonly PlacedHelp[] = [];

/** Help for every bar of a road, in every key that the evening brings. */
export const helpFinder = (needed: HelpNeeded, ask: Ask, changed: () => void) => {
  const { road, music, wish, chartKey, semitones } = needed;
  const byModulation = new Map<number, HelpOfRoad | 'asked'>();
  const ends: (() => void)[] = [];
  return {
    find: (({ leg, place, bar, semitones: modulation = 0 }) => {
      const known = byModulation.get(modulation);
      if (known === undefined) {
        byModulation.set(modulation, 'asked');
        const reading = readingFor(readKey(chartKey), semitones + modulation);
        const done = (legs: readonly LegHelp[]) => {
          byModulation.set(modulation, helpOfRoad(road, legs));
          changed();
        };
        ends.push(ask({ road, wish, reading, music: music ?? NO_MUSIC }, done));
      }
      return known === undefined || known === 'asked' ? null : known(leg.id, place.barIndex, bar.id);
    }) satisfies FindHelp,
    /** What is still asked for is let go. */
    close: () => {
      for (const end of ends.splice(0)) end();
      for (const [modulation, known] of byModulation) if (known === 'asked') byModulation.delete(modulation);
    },
  };
};

type HelpOfRoad = (leg: string, barIndex: number, bar: string) => readonly PlacedHelp[];

/** What was found, by place and, for a leg that a cue has made, by written bar. */
const helpOfRoad = (road: Road, legs: readonly LegHelp[]): HelpOfRoad => {
  const byWritten = new Map<string, readonly PlacedHelp[]>();
  const keep = (bars: readonly RoadBar[], helps: PassHelp) =>
    bars.forEach(({ id }, at) => {
      const help = helps[at];
      if (help !== undefined && !byWritten.has(id)) byWritten.set(id, help);
    });
  road.legs.forEach(({ bars, lastBars = [] }, index) => {
    const { pass = [], lastPass = [] } = legs[index] ?? {};
    keep(bars, pass);
    keep(lastBars, lastPass);
  });
  return (leg, barIndex, bar) => {
    const index = road.legs.findIndex(({ id }) => id === leg);
    const { bars, lastBars } = road.legs[index] ?? {};
    if (bars?.[barIndex]?.id === bar) return legs[index]?.pass[barIndex] ?? NONE;
    if (lastBars?.[barIndex]?.id === bar) return legs[index]?.lastPass?.[barIndex] ?? NONE;
    return byWritten.get(bar) ?? NONE;
  };
};
