import { lazy, useEffect, useState } from 'react';
import type { Reply } from '../net/ask.ts';
import type { BandInfo } from '../net/look-at-band.ts';
import { BoardContext } from '../state/board-context.tsx';
import type { OpenBoard } from '../state/create-board.ts';
import { useObservable } from '../state/observable.ts';
import { BandFrame } from './band-frame.tsx';
import { Masthead } from './masthead.tsx';
import { type BandView, START_HREF } from './route.ts';
import { useServices } from './services.ts';
import { OpenBoardContext } from './use-open-board.ts';
import { openBand } from './wiring.ts';

declare global {
  interface Window {
    /** The open band, for the browser's console and for journeys that look in from outside. */
    tillcue?: { readonly board: OpenBoard };
  }
}

/** The band's board with the key that this tab has; null while it is being opened. */
const useBandBoard = (band: string, ready: boolean): OpenBoard | null => {
  const services = useServices();
  // A key learnt or lost while the band is open opens it anew.
  const known = useObservable(services.bands).find((one) => one.band === band);
  const access = known ? services.bands.keyFor(band) : null;
  const role = access?.role;
  const key = access?.key;
  const [board, setBoard] = useState<OpenBoard | null>(null);

  useEffect(() => {
    if (!role || !key || !ready) return;
    let opened: OpenBoard | null = null;
    let here = true;
    services.member.then((member) => {
      if (!here) return;
      opened = openBand(services, band, role, key, member);
      window.tillcue = { board: opened };
      setBoard(opened);
    });
    services.settings.change({ lastBand: band });
    const looking = import('../net/look-at-band.ts').then(({ lookAtBand }) =>
      lookAtBand(services.ask, band, key),
    );
    const looked = (reply: Reply<BandInfo>) => {
      if (!here) return;
      if (!reply.ok) return console.info(reply.error.words);
      if (reply.value.role !== role) services.bands.learn(band, reply.value.name, reply.value.role, key);
      else services.bands.rename(band, reply.value.name);
    };
    looking.then(looked, (error) => console.info('The band was not looked up.', error));
    return () => {
      here = false;
      setBoard(null);
      opened?.close();
    };
  }, [services, band, role, key, ready]);
  return board;
};

const WhoPage = lazy(() => import('./who-page.tsx').then((module) => ({ default: module.WhoPage })));

const NoKeyPage = () => (
  <main className="page start join">
    <Masthead words="This tablet has no link to that band." />
    <p>
      Open the link or scan the code that the leader gives you, or type the evening code on the start page.
    </p>
    <div className="button-row">
      <a className="button-primary" href={START_HREF}>
        Start page
      </a>
    </div>
  </main>
);

/** One band's pages: opens its board and keeps it while one goes from view to view. */
export const BandPage = ({ band, view }: { readonly band: string; readonly view: BandView }) => {
  const { settings, bands } = useServices();
  const { name, part } = useObservable(settings);
  const known = useObservable(bands).find((one) => one.band === band);
  const introduced = name !== '' && part !== '';
  const board = useBandBoard(band, introduced);
  if (!known || !bands.keyFor(band)) return <NoKeyPage />;
  if (!introduced) return <WhoPage />;
  if (!board || board.band !== band) {
    return (
      <p className="loading" role="status">
        Opening {known.name} …
      </p>
    );
  }
  return (
    <BoardContext value={board}>
      <OpenBoardContext value={board}>
        <BandFrame board={board} view={view} />
      </OpenBoardContext>
    </BoardContext>
  );
};
