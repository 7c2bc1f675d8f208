import { useMemo, useSyncExternalStore } from 'react';
import { type Route, readRoute } from './route.ts';

const subscribe = (changed: () => void) => {
  window.addEventListener('hashchange', changed);
  window.addEventListener('popstate', changed);
  return () => {
    window.removeEventListener('hashchange', changed);
    window.removeEventListener('popstate', changed);
  };
};

/** The page that the address names now. */
export const useRoute = (): Route => {
  const hash = useSyncExternalStore(subscribe, () => window.location.hash);
  return useMemo(() => readRoute(hash), [hash]);
};

/**
 * Goes to another page. In place of the present one where coming back to it makes no sense: a join link,
 * for one, which should not stay in the address line for others to read.
 */
export const goTo = (href: string, how: 'forward' | 'instead' = 'forward'): void => {
  if (how === 'forward') window.location.hash = href;
  else {
    window.history.replaceState(null, '', href);
    window.dispatchEvent(new PopStateEvent('popstate'));
  }
};
