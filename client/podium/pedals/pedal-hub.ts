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
  /** `wants` says whether a trigger is bound. The last who plays hears, until what is returned is called. */
  readonly play: (wants: (trigger: Trigger) => boolean, ear: Ear) => () => void;
  readonly learn: (ear: Ear) => () => void;
}

export const pedalHub = (): PedalHub => {
  const players: { readonly wants: (trigger: Trigger) => boolean; readonly ear: Ear }[] = [];
  let learner: Ear | null = null;
  return {
    hear: (trigger, atMs) => {
      if (learner !== null) {
        learner(trigger, atMs);
        return true;
      }
      const player = players.at(-1);
      if (player === undefined || !player.wants(trigger)) return false;
      player.ear(trigger, atMs);
      return true;
    },
    play: (wants, ear) => {
      const mine = { wants, ear };
      players.push(mine);
      return () => {
        const at = players.indexOf(mine);
        if (at >= 0) players.splice(at, 1);
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
