/** Puts the keyboard on a bar once it has been drawn, and the bar into view. */
export const focusBar = (bar: string | null): void => {
  if (bar === null) return;
  requestAnimationFrame(() => {
    const key = document.querySelector<HTMLElement>(`[data-bar-key="${CSS.escape(bar)}"]`);
    key?.focus({ preventScroll: true });
    key?.scrollIntoView({ block: 'nearest' });
  });
};
