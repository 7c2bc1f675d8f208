/**
 * What is moved in the page loses the keyboard: gives it back to the key that was pressed once the move has been drawn,
 * or to a key beside it where that one is off now.
 */
export const keepFocus = (key: HTMLElement): void => {
  requestAnimationFrame(() => {
    if (document.activeElement !== document.body) return;
    const beside = key.parentElement?.querySelector<HTMLElement>('button:not(:disabled)');
    if (key.isConnected && !key.matches(':disabled')) key.focus();
    else beside?.focus();
  });
};

/** Leaves the field that is being typed in, so that it is written before something is deleted. */
export const leaveField = (): void => {
  if (document.activeElement instanceof HTMLInputElement) document.activeElement.blur();
};
