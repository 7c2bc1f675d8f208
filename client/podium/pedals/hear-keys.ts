import type { PedalHub } from './pedal-hub.ts';
import { keyTrigger } from './trigger.ts';

/** Whether somebody is typing there. */
export const isTyping = (target: EventTarget | null): boolean =>
  target instanceof Element &&
  target.closest('input:not([type="checkbox"], [type="radio"]), textarea, select, [contenteditable]') !==
    null;

/**
 * Listens to the keyboard, which is what page-turner pedals are, until the returned function is called. A key that
 * is bound does nothing else on the page: it neither scrolls nor presses the button in focus.
 */
export const hearKeys = (hub: PedalHub, target: Window): (() => void) => {
  const held = new Set<string>();
  const swallow = (event: Event) => {
    event.preventDefault();
    event.stopImmediatePropagation();
  };
  const down = (event: KeyboardEvent) => {
    if (isTyping(event.target)) return;
    const id = event.code || event.key;
    if (event.repeat) {
      if (held.has(id)) swallow(event);
      return;
    }
    const trigger = keyTrigger(event);
    if (trigger === null || !hub.hear(trigger, event.timeStamp)) return;
    held.add(id);
    swallow(event);
  };
  const up = (event: KeyboardEvent) => {
    if (held.delete(event.code || event.key)) swallow(event);
  };
  const forget = () => held.clear();
  target.addEventListener('keydown', down, { capture: true });
  target.addEventListener('keyup', up, { capture: true });
  target.addEventListener('blur', forget);
  return () => {
    target.removeEventListener('keydown', down, { capture: true });
    target.removeEventListener('keyup', up, { capture: true });
    target.removeEventListener('blur', forget);
  };
};
