import { lazy, Suspense, useEffect } from 'react';
import { useObservable } from '../state/observable.ts';
import { ErrorBoundary } from './error-boundary.tsx';
import { JoinPage } from './join-page.tsx';
import { Loading } from './loading.tsx';
import { useServices } from './services.ts';
import { StartPage } from './start-page.tsx';
import { useRoute } from './use-route.ts';

// The start page must come up at once; everything that needs a band's documents is loaded after it.
const BandPage = lazy(() => import('./band-page.tsx').then((module) => ({ default: module.BandPage })));

const GROUND = { night: '#0c1116', paper: '#ffffff' } as const;

/** The theme belongs to the whole page, also to the browser's own edges around it. */
const useTheme = (): void => {
  const { theme } = useObservable(useServices().settings);
  useEffect(() => {
    document.documentElement.dataset['theme'] = theme;
    document.querySelector('meta[name="theme-color"]')?.setAttribute('content', GROUND[theme]);
  }, [theme]);
};

const Page = () => {
  const route = useRoute();
  if (route.page === 'join') return <JoinPage key={route.key} band={route.band} bandKey={route.key} />;
  if (route.page === 'band') {
    return (
      <Suspense fallback={<Loading />}>
        <BandPage band={route.band} view={route.view} />
      </Suspense>
    );
  }
  return <StartPage code={route.page === 'code' ? route.code : ''} lost={route.page === 'unknown'} />;
};

/** All of the page: what the address names, in the theme of this stand. */
export const App = () => {
  useTheme();
  return (
    <ErrorBoundary>
      <Page />
    </ErrorBoundary>
  );
};
