import { type RefObject, useLayoutEffect, useRef } from 'react';

/**
 * Keeps the keyboard at work: where the key that took a cue back is gone with that cue, the focus goes on to the key
 * that stands in its place, or to the pad where nothing else is called.
 * @param ids of what is called, in the order drawn
 * @returns the function to call when a cue is taken back by the keyboard
 */
export const useFocusOnward = (
  row: RefObject<HTMLElement | null>,
  ids: readonly string[],
): ((id: string) => void) => {
  const left = useRef<{ readonly id: string; readonly at: number } | null>(null);
  useLayoutEffect(() => {
    if (left.current === null || ids.includes(left.current.id)) return;
    const { at } = left.current;
    left.current = null;
    if (document.activeElement !== document.body) return;
    const keys = [...(row.current?.querySelectorAll<HTMLElement>('.take-back') ?? [])];
    const pad = row.current?.parentElement?.querySelector<HTMLElement>('.pad-key:enabled, .page-key');
    (keys[at] ?? keys.at(-1) ?? pad)?.focus();
  });
  return (id) => {
    left.current = { id, at: ids.indexOf(id) };
  };
};
