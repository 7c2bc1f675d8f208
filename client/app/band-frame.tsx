import { lazy, type ReactNode, Suspense, useEffect, useState } from 'react';
import { mayLead } from '../../common/protocol/roles.ts';
import { Stand } from '../stand/stand.tsx';
import type { OpenBoard } from '../state/create-board.ts';
import { derive } from '../state/derive.ts';
import { useObservable } from '../state/observable.ts';
import { ErrorBoundary } from './error-boundary.tsx';
import { Loading } from './loading.tsx';
import { type BandView, bandHref, pencilHref, START_HREF, shedHref, standHref } from './route.ts';

// The stand is what nearly everybody comes for, so it comes along; the rest is loaded when it is gone to.
const BookPages = lazy(() => import('./book-pages.tsx').then((module) => ({ default: module.BookPages })));
const YouSheet = lazy(() => import('./you-sheet.tsx').then((module) => ({ default: module.YouSheet })));

const Podium = lazy(() => import('../podium/podium.tsx').then((module) => ({ default: module.Podium })));
const Pedals = lazy(() =>
  import('../podium/pedals/pedals.tsx').then((module) => ({ default: module.Pedals })),
);

const Pencil = lazy(() => import('../pencil/pencil.tsx').then((module) => ({ default: module.Pencil })));

const Shed = lazy(() => import('../shed/shed.tsx').then((module) => ({ default: module.Shed })));

/** By then the first picture stands, ms. */
const AHEAD_AFTER_MS = 5_000;

/** Views go by their names: 'stand' is the Stand. */
const titleOf = ({ name }: BandView): string => name.charAt(0).toUpperCase() + name.slice(1);
const drawView = (view: BandView, onFollow: () => void): ReactNode => {
  switch (view.name) {
    case 'book':
    case 'add':
    case 'invite':
      return <BookPages page={view.name} />;
    case 'stand':
      return view.chart === undefined ? <Stand /> : <Stand chart={view.chart} onFollow={onFollow} />;
    case 'podium':
      return <Podium />;
    case 'pencil':
      return <Pencil chart={view.chart} />;
    case 'shed':
      return <Shed chart={view.chart} />;
  }
};

/** The chart that the pencil would open: the one looked at last, else the tune that is on. */
const useChartAtHand = (view: BandView, onStage: string | undefined): string | undefined => {
  const [last, setLast] = useState<string>();
  const looking = 'chart' in view ? view.chart : undefined;
  useEffect(() => {
    if (looking !== undefined) setLast(looking);
  }, [looking]);
  return looking ?? (view.name === 'stand' ? onStage : (last ?? onStage));
};

/** The chart of the tune that is on. The stage changes with every cue; the frame only with the tune. */
const useChartOnStage = (board: OpenBoard): string | undefined => {
  const [chart] = useState(() => derive([board.stage], ({ take }) => take?.chart));
  return useObservable(chart);
};

const RailLink = ({ href, here, children }: RailLinkProps) => (
  <a className="rail-key" href={href} aria-current={here ? 'page' : undefined}>
    {children}
  </a>
);

interface RailLinkProps {
  readonly href: string;
  readonly here: boolean;
  readonly children: string;
}

/** The frame of a band's pages: the way between its views, and what is wrong if something is. */
export const BandFrame = ({ board, view }: { readonly board: OpenBoard; readonly view: BandView }) => {
  const { band, role, member } = board;
  const leading = useObservable(board.leading);
  const leads = mayLead(role, member, leading);
  const taps = leading.taps === member;
  const trouble = useObservable(board.trouble);
  const link = useObservable(board.link);
  const onStage = useChartOnStage(board);
  const chart = useChartAtHand(view, onStage);
  // A stand that was sent to a chart of its own would not turn to the next tune.
  const isOther = (view.name === 'pencil' || view.name === 'shed') && view.chart !== onStage;
  const [asking, setAsking] = useState(false);
  const [bandName] = useState(() => derive([board.book], ({ name }) => name));
  const name = useObservable(bandName);
  useEffect(() => {
    document.title = `${titleOf(view)} · ${name || 'Tillcue'}`;
  }, [view, name]);

  useEffect(() => {
    setTimeout(
      () => import('./fetch-ahead.ts').then(({ fetchAhead }) => fetchAhead(), console.info),
      AHEAD_AFTER_MS,
    );
  }, []);

  const words = link.state === 'closed' ? link.words : trouble;
  const inBook = view.name === 'book' || view.name === 'add' || view.name === 'invite';
  return (
    <div className="frame">
      <nav className="rail" aria-label="Views">
        <RailLink href={bandHref(band, 'book')} here={inBook}>
          Book
        </RailLink>
        <RailLink
          href={isOther ? standHref(band, view.chart) : bandHref(band, 'stand')}
          here={view.name === 'stand'}
        >
          Stand
        </RailLink>
        {(leads || taps) && (
          <RailLink href={bandHref(band, 'podium')} here={view.name === 'podium'}>
            {leads ? 'Podium' : 'Tap'}
          </RailLink>
        )}
        {chart !== undefined && (
          <RailLink href={pencilHref(band, chart)} here={view.name === 'pencil'}>
            Pencil
          </RailLink>
        )}
        {chart !== undefined && (
          <RailLink href={shedHref(band, chart)} here={view.name === 'shed'}>
            Shed
          </RailLink>
        )}
        <button
          type="button"
          className="rail-key rail-you"
          aria-haspopup="dialog"
          onClick={() => setAsking(true)}
        >
          You
        </button>
      </nav>
      <div className="frame-view">
        {words !== null && (
          <div className="strip" data-family="out" role="alert">
            <span>{words}</span>
            <a className="button" href={START_HREF}>
              Start page
            </a>
          </div>
        )}
        <div className="view">
          <ErrorBoundary name={view.name}>
            <Suspense fallback={<Loading />}>
              {drawView(view, () => {
                location.hash = bandHref(band, 'stand');
              })}
            </Suspense>
          </ErrorBoundary>
        </div>
      </div>
      {(leads || taps) && (
        <Suspense fallback={null}>
          <Pedals />
        </Suspense>
      )}
      {asking && (
        <Suspense fallback={null}>
          <YouSheet onClose={() => setAsking(false)} />
        </Suspense>
      )}
    </div>
  );
};
