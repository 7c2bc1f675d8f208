import { lazy, Suspense, useEffect } from 'react';
import { NoteNamesContext } from '../engraving/note-names.ts';
import { useObservable } from '../state/observable.ts';
import { ErrorBoundary } from './error-boundary.tsx';
import { Loading } from './loading.tsx';
import { useServices } from './services.ts';
import { useRoute } from './use-route.ts';

// Each page is loaded when it is gone to: a stand that comes back to its band needs neither start nor join.
const StartPage = lazy(() => import('./start-page.tsx').then((module) => ({ default: module.StartPage })));
const JoinPage = lazy(() => import('./join-page.tsx').then((module) => ({ default: module.JoinPage })));
const BandPage = lazy(() => import('./band-page.tsx').then((module) => ({ default: module.BandPage })));

const GROUND = { night: '#0c1116', paper: '#ffffff' } as const;

/** The theme belongs to the whole page, also to the browser's own edges around it. */
const useTheme = (theme: keyof typeof GROUND): void => {
  useEffect(() => {
    document.documentElement.dataset['theme'] = theme;
    document.querySelector('meta[name="theme-color"]')?.setAttribute('content', GROUND[theme]);
  }, [theme]);
};

const Page = () => {
  const route = useRoute();
  if (route.page === 'join') return <JoinPage key={route.key} band={route.band} bandKey={route.key} />;
  if (route.page === 'band') return <BandPage band={route.band} view={route.view} />;
  return <StartPage code={route.page === 'code' ? route.code : ''} lost={route.page === 'unknown'} />;
};

/** All of the page: what the address names, in the theme of this stand. */
export const App = () => {
  const { theme, noteNames } = useObservable(useServices().settings);
  useTheme(theme);
  return (
    <ErrorBoundary>
      <NoteNamesContext value={noteNames}>
        <Suspense fallback={<Loading />}>
          <Page />
        </Suspense>
      </NoteNamesContext>
    </ErrorBoundary>
  );
};
