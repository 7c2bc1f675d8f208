/**
 * Calls back when the page may have been asleep or the network has come back: the moment to ask the relay
 * whether it is still there, without waiting for anything.
 * @returns ends the watch
 */
export const watchWaking = (woke: () => void): (() => void) => {
  const shown = () => {
    if (document.visibilityState === 'visible') woke();
  };
  document.addEventListener('visibilitychange', shown);
  document.addEventListener('resume', woke);
  window.addEventListener('pageshow', woke);
  window.addEventListener('online', woke);
  return () => {
    document.removeEventListener('visibilitychange', shown);
    document.removeEventListener('resume', woke);
    window.removeEventListener('pageshow', woke);
    window.removeEventListener('online', woke);
  };
};
