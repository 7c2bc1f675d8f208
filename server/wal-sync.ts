import { close, fdatasync, openSync } from 'node:fs';

/**
 * Tells when what has been committed would also survive a power cut. The log file is synced in a thread of its
 * own, one sync after the other, so the event loop, and with it the clock, never waits for the disk.
 */
export interface WalSync {
  /** Something has been committed: sync, then call back. */
  readonly committed: (synced: readonly (() => void)[]) => void;
  /** After a last sync. */
  readonly close: () => Promise<void>;
}

export const walSync = (walPath: string, failed: (error: Error) => void): WalSync => {
  // A file descriptor of our own does no harm: SQLite holds its locks on other files than the log.
  const file = openSync(walPath, 'r+');
  let waiting: (() => void)[] = [];
  let due = false;
  let busy = false;
  const idle: (() => void)[] = [];
  const run = () => {
    if (busy) return;
    if (!due) {
      for (const done of idle.splice(0)) done();
      return;
    }
    busy = true;
    due = false;
    const batch = waiting;
    waiting = [];
    fdatasync(file, (error) => {
      busy = false;
      if (error) {
        failed(error);
        return;
      }
      for (const done of batch) done();
      run();
    });
  };
  return {
    committed: (synced) => {
      due = true;
      waiting.push(...synced);
      run();
    },
    close: () =>
      new Promise<void>((done) => {
        idle.push(() => close(file, () => done()));
        run();
      }),
  };
};
