import type { RankedSpot } from '../../common/form/lost-spots/lost-spots.ts';
import {
  beginCueDrill,
  type CueDrill,
  soundInBreak,
  tapCueDrill,
  turnCueDrill,
} from '../../common/rehearsal/cue-drill.ts';
import type { Answer } from '../../common/rehearsal/drill-answer.ts';
import type { Dice } from '../../common/rehearsal/drill-cues.ts';
import {
  beginLostDrill,
  isDark,
  type LostDrill,
  tapLostDrill,
  turnLostDrill,
} from '../../common/rehearsal/lost-drill.ts';
import { onFrame } from '../state/frame-loop.ts';
import { type Observable, settable } from '../state/observable.ts';
import type { AloneBoard } from './alone-board.ts';

/** A round as it is seen. */
export type DrillSeen =
  | { readonly name: 'cues'; readonly drill: CueDrill; readonly dark: false; readonly words: string }
  | { readonly name: 'spots'; readonly drill: LostDrill; readonly dark: boolean; readonly words: string };

/** A round of a drill that is going on. */
export interface DrillRun {
  readonly seen: Observable<DrillSeen>;
  /** @param atMs shared time of the stage */
  readonly tap: (atMs: number) => void;
  /** The microphone heard the player. */
  readonly heard: (atMs: number) => void;
  readonly stop: () => { readonly answers: readonly Answer[]; readonly level: number };
}

export interface DrillWish {
  readonly name: DrillSeen['name'];
  readonly level: number;
  readonly listens: boolean;
  readonly spotsOf: (leg: string) => readonly RankedSpot[];
  readonly dice: Dice;
}

/** Begins a round on a stage of one's own; it goes on, frame by frame, until it is stopped. */
export const runDrill = (alone: AloneBoard, wish: DrillWish): DrillRun => {
  const { name, level, listens, spotsOf, dice } = wish;
  const first: DrillSeen =
    name === 'cues'
      ? { name, drill: beginCueDrill(level, listens), dark: false, words: '' }
      : { name, drill: beginLostDrill(level), dark: false, words: '' };
  const seen = settable<DrillSeen>(first);
  const say = (words: string) => {
    const now = seen.get();
    if (now.words !== words) seen.set({ ...now, words });
  };
  const frame = (): void => {
    const { performance } = alone.stage.get();
    if (performance === null) return;
    const now = seen.get();
    const nowMs = alone.sharedNow();
    const { drill, call } =
      now.name === 'cues'
        ? turnCueDrill(now.drill, performance, nowMs, dice)
        : turnLostDrill(now.drill, performance, spotsOf, nowMs, dice);
    show(drill, nowMs);
    // Refused calls are asked for again on the next frame, or another is thought of.
    if (call !== null) void alone.call(call).then((done) => say(done.ok ? '' : done.error.words));
  };
  const show = (drill: CueDrill | LostDrill, nowMs: number): void => {
    const now = seen.get();
    const dark = 'dark' in drill && isDark(drill, nowMs);
    if (drill === now.drill && dark === now.dark) return;
    seen.set(
      'dark' in drill
        ? { name: 'spots', drill, dark, words: now.words }
        : { name: 'cues', drill, dark: false, words: now.words },
    );
  };
  const stopFrames = onFrame(frame);
  return {
    seen,
    tap: (atMs) => {
      const now = seen.get();
      const { performance } = alone.stage.get();
      if (performance === null) return;
      const drill =
        now.name === 'cues' ? tapCueDrill(now.drill, atMs) : tapLostDrill(now.drill, performance, atMs);
      show(drill, alone.sharedNow());
    },
    heard: (atMs) => {
      const now = seen.get();
      if (now.name === 'cues') show(soundInBreak(now.drill, atMs), atMs);
    },
    stop: () => {
      stopFrames();
      const { answers, progress } = seen.get().drill;
      return { answers, level: progress.level };
    },
  };
};
