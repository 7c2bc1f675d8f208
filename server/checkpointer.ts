import { createRequire } from 'node:module';
import { Worker } from 'node:worker_threads';

/** Moves the log into the database file, in a thread of its own: that syncs files and would stall the event loop. */
export interface Checkpointer {
  readonly checkpoint: () => void;
  readonly close: () => Promise<void>;
}

/** Kept as a text, so that the built relay is one file. A busy checkpoint is no failure: the next one does it. */
const PROGRAM = `
const { parentPort, workerData } = require('node:worker_threads');
const Libsql = require(workerData.libsql);
const database = new Libsql(workerData.path);
database.pragma('busy_timeout = 0');
parentPort.on('message', (message) => {
  if (message === 'close') {
    database.close();
    parentPort.close();
    return;
  }
  database.prepare('pragma wal_checkpoint(PASSIVE)').all();
  parentPort.postMessage('done');
});
`;

export const checkpointer = (databasePath: string, failed: (error: Error) => void): Checkpointer => {
  let worker: Worker | null = null;
  let busy = false;
  const start = (): Worker => {
    const made = new Worker(PROGRAM, {
      eval: true,
      execArgv: [],
      workerData: { libsql: createRequire(import.meta.url).resolve('libsql'), path: databasePath },
    });
    made.on('message', () => {
      busy = false;
    });
    made.on('error', (error) => {
      worker = null;
      busy = false;
      failed(error);
    });
    made.unref();
    return made;
  };
  return {
    checkpoint: () => {
      if (busy) return;
      worker ??= start();
      busy = true;
      worker.postMessage('checkpoint');
    },
    close: () =>
      new Promise<void>((done) => {
        if (worker === null) {
          done();
          return;
        }
        worker.ref();
        worker.once('exit', () => done());
        worker.postMessage('close');
      }),
  };
};
