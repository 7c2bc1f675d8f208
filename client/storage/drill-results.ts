import { beginAt } from '../../common/rehearsal/drill-progress.ts';
import { type DayScore, type DrillScore, withRound } from '../../common/rehearsal/drill-scores.ts';
import { type Observable, settable } from '../state/observable.ts';
import { readJson, type TextStore, writeJson } from './stored-json.ts';

export type DrillName = DayScore['drill'];

/** What this tablet knows of the drills. */
export interface DrillResults {
  /** Where each drill begins next time. */
  readonly levels: Readonly<Record<DrillName, number>>;
  readonly days: readonly DayScore[];
  /** Louder than this the microphone takes for playing, dB below full scale. */
  readonly playingDb: number;
}

export interface DrillResultsStore extends Observable<DrillResults> {
  readonly change: (fields: Partial<Pick<DrillResults, 'levels' | 'playingDb'>>) => void;
  /** Adds a round; false where the tablet could not keep it. */
  readonly add: (
    round: Pick<DayScore, 'day' | 'drill' | 'chart'>,
    scores: readonly DrillScore[],
    level: number,
  ) => boolean;
}

const NAME = 'tillcue.drills';
const PLAYING_DB = -36;
const DAY = /^\d{4}-\d\d-\d\d$/;

const record = (value: unknown): Record<string, unknown> =>
  typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {};

const isCount = (value: unknown): value is number => Number.isInteger(value) && Number(value) >= 0;

const scoreFrom = (value: unknown): DayScore[] => {
  const { day, drill, chart, name, asked, right, tapped, offBeats } = record(value);
  const isSound =
    typeof day === 'string' &&
    DAY.test(day) &&
    (drill === 'cues' || drill === 'spots') &&
    typeof chart === 'string' &&
    typeof name === 'string' &&
    isCount(asked) &&
    isCount(right) &&
    isCount(tapped) &&
    typeof offBeats === 'number' &&
    offBeats >= 0 &&
    right <= asked &&
    tapped <= asked;
  return isSound ? [{ day, drill, chart, name, asked, right, tapped, offBeats }] : [];
};

const resultsFrom = (value: unknown): DrillResults => {
  const kept = record(value);
  const levels = record(kept['levels']);
  const level = (drill: DrillName) => beginAt(Number(levels[drill] ?? 1)).level;
  const { days, playingDb } = kept;
  const isLevel = typeof playingDb === 'number' && playingDb >= -70 && playingDb <= 0;
  return {
    levels: { cues: level('cues'), spots: level('spots') },
    days: Array.isArray(days) ? days.flatMap(scoreFrom) : [],
    playingDb: isLevel ? playingDb : PLAYING_DB,
  };
};

/** The results kept in that store; what makes no sense there is left out. */
export const openDrillResults = (store: TextStore): DrillResultsStore => {
  const results = settable(resultsFrom(readJson(store, NAME)));
  const write = (next: DrillResults): boolean => {
    results.set(next);
    return writeJson(store, NAME, next);
  };
  return {
    get: results.get,
    subscribe: results.subscribe,
    change: (fields) => {
      write({ ...results.get(), ...fields });
    },
    add: (round, scores, level) => {
      // Another tab may have kept a round since.
      const kept = resultsFrom(readJson(store, NAME));
      const levels = { ...results.get().levels, [round.drill]: level };
      const days = withRound(kept.days.length > 0 ? kept.days : results.get().days, round, scores);
      return write({ ...results.get(), levels, days });
    },
  };
};
