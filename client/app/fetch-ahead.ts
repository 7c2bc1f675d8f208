/** What is not on the screen yet, the likeliest first. */
const AHEAD: readonly (() => Promise<unknown>)[] = [
  () => import('../shed/shed.tsx'),
  async () => (await import('../stand/help/ask-help.ts')).readyHelp(),
  () => import('../pencil/pencil.tsx'),
  () => import('./book-pages.tsx'),
  () => import('../podium/podium.tsx'),
  () => import('./you-sheet.tsx'),
  async () => (await import('../sound/band-sound.ts')).fetchOneShots(),
];

const LATEST_MS = 5_000;

/** When the page has nothing else to do, at the latest after a while. Not every browser tells. */
const idle = (): Promise<void> =>
  new Promise((done) => {
    if ('requestIdleCallback' in window) requestIdleCallback(() => done(), { timeout: LATEST_MS });
    else setTimeout(done, LATEST_MS);
  });

/** Fetches the views that nobody has gone to yet, one after the other, so that they are here when the relay is not. */
export const fetchAhead = async (): Promise<void> => {
  try {
    for (const fetchView of AHEAD) {
      await idle();
      await fetchView();
    }
  } catch (error) {
    console.info('Not all views are here yet; they are asked for when somebody goes there.', error);
  }
};
