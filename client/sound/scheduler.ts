import type { NoteEvent } from '../../common/band/note-event.ts';
import type { SharedMs } from '../../common/units.ts';

/** A note that was handed to the sound. */
export interface Sounding {
  /** It ends then and no later; before it has begun it is not heard at all. */
  readonly endAt: (atMs: number) => void;
}

export interface SchedulerParts {
  readonly sharedNow: () => SharedMs;
  /** What is played from one instant up to another, by what has been called so far. */
  readonly eventsBetween: (fromMs: number, untilMs: number) => readonly NoteEvent[];
  /** Begins a note at its time, with its length. */
  readonly play: (event: NoteEvent) => Sounding;
}

export interface Scheduler {
  /** To be called a few times within the look-ahead, however unevenly. Hands over what is due. */
  readonly wake: () => void;
  /** Something was called: what has not begun yet is planned anew, what sounds ends when it should by now. */
  readonly replan: () => void;
  /** Everything ends; a later wake begins from then. */
  readonly stop: () => void;
}

interface Handed {
  readonly event: NoteEvent;
  readonly sounding: Sounding;
  endMs: number;
}

export const LOOK_AHEAD_MS = 220;
/** What lies nearer can't be called back in time. */
const TOO_LATE_MS = 15;
/** After a pause of the page what was missed by more is left out. */
const MISSED_MS = 60;

const nameOf = ({ voice, midi, atMs }: NoteEvent): string => `${voice} ${midi} ${atMs.toFixed(3)}`;

const endOf = ({ atMs, lengthMs }: NoteEvent): number => atMs + lengthMs;

/** The timer only wakes: notes get exact times and are handed over shortly before, each once. */
export const createScheduler = ({ sharedNow, eventsBetween, play }: SchedulerParts): Scheduler => {
  let handed: Handed[] = [];
  let untilMs: number | null = null;

  const hand = (fromMs: number, toMs: number): void => {
    if (!(toMs > fromMs)) return;
    for (const event of eventsBetween(fromMs, toMs)) {
      handed.push({ event, sounding: play(event), endMs: endOf(event) });
    }
    untilMs = toMs;
  };

  const wake = (): void => {
    const nowMs = sharedNow();
    handed = handed.filter(({ endMs }) => endMs > nowMs);
    const from = untilMs === null ? nowMs : Math.max(untilMs, nowMs - MISSED_MS);
    hand(from, nowMs + LOOK_AHEAD_MS);
  };

  const replan = (): void => {
    if (untilMs === null) return;
    const nowMs = sharedNow();
    const firmMs = nowMs + TOO_LATE_MS;
    const begun = handed.filter(({ event }) => event.atMs < firmMs);
    for (const { event, sounding } of handed) if (event.atMs >= firmMs) sounding.endAt(event.atMs);
    const oldestMs = begun.reduce((oldest, { event }) => Math.min(oldest, event.atMs), firmMs);
    const now = new Map(
      (oldestMs < firmMs ? eventsBetween(oldestMs, firmMs) : []).map((event) => [nameOf(event), event]),
    );
    for (const one of begun) {
      const again = now.get(nameOf(one.event));
      const endMs = again ? endOf(again) : nowMs;
      if (endMs === one.endMs) continue;
      one.endMs = endMs;
      one.sounding.endAt(Math.max(nowMs, endMs));
    }
    handed = begun.filter(({ endMs }) => endMs > nowMs);
    hand(firmMs, Math.max(firmMs, untilMs));
  };

  const stop = (): void => {
    const nowMs = sharedNow();
    for (const { sounding } of handed) sounding.endAt(nowMs);
    handed = [];
    untilMs = null;
  };

  return { wake, replan, stop };
};
