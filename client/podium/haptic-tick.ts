/** Length of the tick in the hand, ms: long enough to be felt, too short to be heard by a microphone. */
const TICK_MS = 12;

/** A handler that gives a short tick in the hand when a key goes down, where the tablet can. */
export const tickOnKeys =
  (haptic: boolean) =>
  ({ target }: { readonly target: EventTarget }): void => {
    if (!haptic || !(target instanceof Element) || !('vibrate' in navigator)) return;
    if (target.closest('button:not(:disabled)') !== null) navigator.vibrate(TICK_MS);
  };
