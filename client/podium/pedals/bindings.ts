import type { Binding } from '../../storage/podium-settings.ts';
import type { Trigger } from './trigger.ts';

/** What that trigger does, null where it is free. */
export const actionOf = (bindings: readonly Binding[], trigger: Trigger): string | null =>
  bindings.find((one) => one.trigger === trigger)?.action ?? null;

/** The triggers of an action; a cue may have a pedal and a key. */
export const triggersOf = (bindings: readonly Binding[], action: string): readonly Trigger[] =>
  bindings.filter((one) => one.action === action).map(({ trigger }) => trigger);

/** The bindings with that one; the trigger is taken from what it did before. */
export const bind = (bindings: readonly Binding[], trigger: Trigger, action: string): readonly Binding[] => [
  ...unbind(bindings, trigger),
  { trigger, action },
];

/** The bindings without that trigger. */
export const unbind = (bindings: readonly Binding[], trigger: Trigger): readonly Binding[] =>
  bindings.filter((one) => one.trigger !== trigger);
