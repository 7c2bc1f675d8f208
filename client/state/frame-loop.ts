/** One animation-frame loop for everything on the page that follows the music. */
const watchers = new Set<() => void>();
let running = 0;

const frame = (): void => {
  running = watchers.size > 0 ? requestAnimationFrame(frame) : 0;
  for (const watch of [...watchers]) watch();
};

/** Calls `watch` on every animation frame until the returned function is called. It must be quick: see `npm run bench`. */
export const onFrame = (watch: () => void): (() => void) => {
  watchers.add(watch);
  if (running === 0) running = requestAnimationFrame(frame);
  return () => {
    watchers.delete(watch);
  };
};
