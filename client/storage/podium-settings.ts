import { type KeptSettings, keptSettings } from './kept-settings.ts';
import type { TextStore } from './stored-json.ts';

/** What a pedal or a key does: `trigger` is what the tablet hears ('key:PageDown'), `action` a key of the podium. */
export interface Binding {
  readonly trigger: string;
  readonly action: string;
}

/** How the podium of this tablet is set up. It is the tablet's, whoever leads from it. */
export interface PodiumSettings {
  /** The hand that is free: what is needed most stands under its thumb. */
  readonly hand: 'right' | 'left';
  /** A short tick in the hand at every touch, where the tablet can. */
  readonly haptic: boolean;
  /** What the leader taps: every beat, or the one of every bar. */
  readonly tapping: 'beats' | 'downbeats';
  readonly breakBars: number;
  readonly tagBars: number;
  readonly tagTimes: number;
  /** Bars over which rit. and accel. change the tempo, and by how much, %. */
  readonly rampBars: number;
  readonly rampPercent: number;
  /** A spot that is looped: counted in every time, and faster by so much every so many rounds; 0 is not at all. */
  readonly loopCountIn: boolean;
  readonly loopStepBpm: number;
  readonly loopRounds: number;
  readonly bindings: readonly Binding[];
}

export type PodiumSettingsStore = KeptSettings<PodiumSettings>;

const NAME = 'tillcue.podium';

const isBinding = (value: unknown): value is Binding => {
  const { trigger, action } = (value ?? {}) as Record<string, unknown>;
  return typeof trigger === 'string' && trigger !== '' && typeof action === 'string' && action !== '';
};

const settingsFrom = (value: unknown): PodiumSettings => {
  const kept = typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {};
  const number = (name: keyof PodiumSettings, least: number, most: number, otherwise: number): number => {
    const found = kept[name];
    return typeof found === 'number' && found >= least && found <= most ? Math.round(found) : otherwise;
  };
  const bindings = kept['bindings'];
  return {
    hand: kept['hand'] === 'left' ? 'left' : 'right',
    haptic: kept['haptic'] !== false,
    tapping: kept['tapping'] === 'downbeats' ? 'downbeats' : 'beats',
    breakBars: number('breakBars', 1, 16, 2),
    tagBars: number('tagBars', 1, 16, 4),
    tagTimes: number('tagTimes', 2, 8, 3),
    rampBars: number('rampBars', 1, 16, 4),
    rampPercent: number('rampPercent', 1, 50, 15),
    loopCountIn: kept['loopCountIn'] !== false,
    loopStepBpm: number('loopStepBpm', 0, 20, 4),
    loopRounds: number('loopRounds', 1, 16, 2),
    bindings: Array.isArray(bindings)
      ? bindings.filter(isBinding).map(({ trigger, action }) => ({ trigger, action }))
      : [],
  };
};

/** The settings kept in that store; what is missing or no longer makes sense is as at first. */
export const openPodiumSettings = (store: TextStore): PodiumSettingsStore =>
  keptSettings(NAME, settingsFrom, store);
