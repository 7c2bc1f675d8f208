/** An answer that was given, or not. */
export interface Answer {
  /** What was asked: a kind of cue, or the id of a lost spot. */
  readonly name: string;
  readonly right: boolean;
  /** How late the tap came, in beats; below 0 it came early. Null where there was none. */
  readonly errorBeats: number | null;
}

/** When a tap is due. */
export interface Due {
  readonly dueMs: number;
  /** A beat there. */
  readonly beatMs: number;
}

/** A tap is right within so many beats of its instant. */
const RIGHT_BEATS = 0.5;
/** A tap answers up to so many beats before and after. */
export const HEARD_BEATS = 2;

/** How late a tap is, in beats; below 0 it is early. */
export const errorOf = ({ dueMs, beatMs }: Due, tapMs: number): number => (tapMs - dueMs) / beatMs;

export const isRight = (errorBeats: number, withinBeats = RIGHT_BEATS): boolean =>
  Math.abs(errorBeats) <= withinBeats;

/** Whether a tap then is an answer at all. */
export const isHeard = (due: Due, tapMs: number): boolean => isRight(errorOf(due, tapMs), HEARD_BEATS);
