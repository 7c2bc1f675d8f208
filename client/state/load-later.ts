import type { LinkState } from './link-state.ts';
import type { Observable } from './observable.ts';

/** A part of the page that is fetched when it is needed. While it cannot be had it is asked for each time the relay is back. */
export const loadLater = <Part>(load: () => Promise<Part>, link: Observable<LinkState>): Promise<Part> =>
  load().catch((error: unknown) => {
    console.warn('A part of the page is asked for again when the relay is back.', error);
    return new Promise((done) => {
      const stop = link.subscribe(() => {
        if (link.get().state !== 'on') return;
        stop();
        done(loadLater(load, link));
      });
    });
  });
