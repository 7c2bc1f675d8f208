import type { Answer } from './drill-answer.ts';

/** How often something was asked and was right. */
export interface DrillScore {
  readonly name: string;
  readonly asked: number;
  readonly right: number;
  /** Answers that came at all, and how far off they were in all, early or late, in beats. */
  readonly tapped: number;
  readonly offBeats: number;
}

/** The scores of a day, by drill and name. */
export interface DayScore extends DrillScore {
  /** `2026-11-28`, as the tablet's calendar has it. */
  readonly day: string;
  readonly drill: 'cues' | 'spots';
  /** Id of the chart; '' where it makes no difference. */
  readonly chart: string;
}

const added = <Score extends DrillScore>(score: Score, more: DrillScore): Score => ({
  ...score,
  asked: score.asked + more.asked,
  right: score.right + more.right,
  tapped: score.tapped + more.tapped,
  offBeats: score.offBeats + more.offBeats,
});

const scoreOf = ({ name, right, errorBeats }: Answer): DrillScore => ({
  name,
  asked: 1,
  right: right ? 1 : 0,
  tapped: errorBeats === null ? 0 : 1,
  offBeats: Math.abs(errorBeats ?? 0),
});

/** The scores by name, in the order in which the names first came. */
export const scoresOf = (answers: readonly Answer[]): DrillScore[] => {
  const scores = new Map<string, DrillScore>();
  for (const answer of answers) {
    const one = scoreOf(answer);
    const known = scores.get(one.name);
    scores.set(one.name, known ? added(known, one) : one);
  }
  return [...scores.values()];
};

/** What stands on a day is remembered for so many of them; more is more than a plot shows. */
const MOST_SCORES = 2000;

/**
 * The days with the scores of another round: added to those of the same day, drill, chart and name. In order of days;
 * beyond `most` the oldest are forgotten.
 */
export const withRound = (
  days: readonly DayScore[],
  round: Pick<DayScore, 'day' | 'drill' | 'chart'>,
  scores: readonly DrillScore[],
  most = MOST_SCORES,
): DayScore[] => {
  const next = [...days];
  for (const score of scores) {
    const at = next.findIndex(
      ({ day, drill, chart, name }) =>
        day === round.day && drill === round.drill && chart === round.chart && name === score.name,
    );
    const known = next[at];
    if (known) next[at] = added(known, score);
    else next.push({ ...score, day: round.day, drill: round.drill, chart: round.chart });
  }
  next.sort((one, other) => (one.day < other.day ? -1 : one.day > other.day ? 1 : 0));
  return next.slice(Math.max(0, next.length - most));
};
