import type { Trigger } from './trigger.ts';

/** Hears one trigger. @param atMs when it went down, on the clock of `performance.now()` */
export type Ear = (trigger: Trigger, atMs: number) => void;

/**
 * Where all that pedals and keys send comes together. Normally it calls cues; while a pedal is being learnt,
 * everything goes to who learns it, and calls nothing.
 */
export interface PedalHub {
  /** Something went down. True where somebody took it: then the page does nothing else with it. */
  readonly hear: (trigger: Trigger, atMs: number) => boolean;
  /** `wants` says whether a trigger is bound. Returns what ends it. */
  readonly play: (wants: (trigger: Trigger) => boolean, ear: Ear) => () => void;
  readonly learn: (ear: Ear) => () => void;
}

export const pedalHub = (): PedalHub => {
  let player: { readonly wants: (trigger: Trigger) => boolean; readonly ear: Ear } | null = null;
  let learner: Ear | null = null;
  return {
    hear: (trigger, atMs) => {
      if (learner !== null) {
        learner(trigger, atMs);
        return true;
      }
      if (player === null || !player.wants(trigger)) return false;
      player.ear(trigger, atMs);
      return true;
    },
    play: (wants, ear) => {
      const mine = { wants, ear };
      player = mine;
      return () => {
        if (player === mine) player = null;
      };
    },
    learn: (ear) => {
      learner = ear;
      return () => {
        if (learner === ear) learner = null;
      };
    },
  };
};

/** The one of this page. */
export const pedals: PedalHub = pedalHub();
