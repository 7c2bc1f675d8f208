import { join } from 'node:path';
import { type Checkpointer, checkpointer } from './checkpointer.ts';
import { DATABASE_FILE, type Database, openDatabase } from './database.ts';
import type { Log } from './log.ts';
import { walSync } from './wal-sync.ts';

/**
 * The documents on the disk: appended updates and, now and then, one snapshot in their place.
 *
 * What is appended in one turn of the event loop is committed together at its end; only then do the callbacks
 * of `afterCommit` run, in order. A commit that fails ends the store, and with it the relay: better down than
 * telling people that their work is safe.
 */
export interface Store {
  readonly database: Database;
  readonly append: (document: string, update: Uint8Array) => void;
  /** Calls back when everything appended so far has been committed: at once where nothing waits. */
  readonly afterCommit: (done: () => void) => void;
  /** Calls back when everything appended so far would survive a power cut. */
  readonly afterSync: (done: () => void) => void;
  /** Commits now. */
  readonly flush: () => void;
  /** Everything of a document, oldest first; together they are its state. */
  readonly load: (document: string) => Uint8Array[];
  /** Puts one snapshot in the place of everything stored of a document so far. */
  readonly compact: (document: string, snapshot: Uint8Array) => void;
  readonly documentsOf: (band: string) => readonly string[];
  /** Runs `change` in a transaction of its own, after what has been appended. */
  readonly transaction: <Value>(change: () => Value) => Value;
  readonly close: () => Promise<void>;
}

const COMMITS_PER_CHECKPOINT = 1_000;
const BYTES_PER_CHECKPOINT = 4 * 1024 * 1024;

/** @param failed called once, when the store has ended because the disk did not take a commit */
export const openStore = (folder: string, log: Log, failed: (error: Error) => void): Store => {
  const database = openDatabase(folder);
  // The log file exists from the first write on.
  database.exec("insert or replace into meta (name, value) values ('opened', '1')");
  const path = join(folder, DATABASE_FILE);
  let broken = false;
  const fail = (error: Error) => {
    if (broken) return;
    broken = true;
    log.error('the disk does not take what has to be stored', { error });
    failed(error);
  };
  const sync = walSync(`${path}-wal`, fail);
  const checkpoints: Checkpointer = checkpointer(path, (error) => log.warn('checkpoint failed', { error }));

  const insert = database.prepare('insert into updates (document, data) values (?, ?)');
  const snapshotOf = database.prepare('select data from snapshots where document = ?').raw(true);
  const updatesOf = database.prepare('select data from updates where document = ? order by seq').raw(true);
  const dropUpdates = database.prepare('delete from updates where document = ?');
  const putSnapshot = database.prepare('insert or replace into snapshots (document, data) values (?, ?)');
  const begin = database.prepare('begin immediate');
  const commit = database.prepare('commit');
  const rollback = database.prepare('rollback');

  let queue: { readonly document: string; readonly update: Uint8Array }[] = [];
  let committed: (() => void)[] = [];
  let synced: (() => void)[] = [];
  let scheduled = false;
  let commitsSince = 0;
  let bytesSince = 0;

  const inTransaction = <Value>(change: () => Value): Value => {
    begin.run();
    try {
      const value = change();
      commit.run();
      commitsSince++;
      return value;
    } catch (error) {
      if (database.inTransaction) rollback.run();
      throw error;
    }
  };
  const maybeCheckpoint = () => {
    if (commitsSince < COMMITS_PER_CHECKPOINT && bytesSince < BYTES_PER_CHECKPOINT) return;
    commitsSince = 0;
    bytesSince = 0;
    checkpoints.checkpoint();
  };
  const flush = () => {
    if (broken) return;
    const rows = queue;
    const done = committed;
    const later = synced;
    queue = [];
    committed = [];
    synced = [];
    if (rows.length > 0) {
      try {
        inTransaction(() => {
          for (const row of rows) {
            insert.run(row.document, row.update);
            bytesSince += row.update.length;
          }
        });
      } catch (error) {
        fail(error as Error);
        return;
      }
    }
    for (const callback of done) callback();
    if (rows.length > 0 || later.length > 0) sync.committed(later);
    maybeCheckpoint();
  };
  const schedule = () => {
    if (scheduled) return;
    scheduled = true;
    setImmediate(() => {
      scheduled = false;
      flush();
    });
  };
  const transaction = <Value>(change: () => Value): Value => {
    flush();
    try {
      return inTransaction(change);
    } catch (error) {
      fail(error as Error);
      throw error;
    } finally {
      sync.committed([]);
    }
  };
  const bytesOf = (row: unknown): Uint8Array => (row as [Uint8Array])[0];
  return {
    database,
    append: (document, update) => {
      queue.push({ document, update });
      schedule();
    },
    afterCommit: (done) => {
      if (queue.length === 0 && committed.length === 0) {
        if (!broken) done();
        return;
      }
      committed.push(done);
      schedule();
    },
    afterSync: (done) => {
      synced.push(done);
      schedule();
    },
    flush,
    load: (document) => {
      flush();
      return [...snapshotOf.all(document), ...updatesOf.all(document)].map(bytesOf);
    },
    compact: (document, snapshot) => {
      transaction(() => {
        dropUpdates.run(document);
        putSnapshot.run(document, snapshot);
        bytesSince += snapshot.length;
      });
      maybeCheckpoint();
    },
    documentsOf: (band) => {
      flush();
      const from = `${band}/`;
      const rows = database
        .prepare(
          `select document from snapshots where document >= @from and document < @to
           union select document from updates where document >= @from and document < @to`,
        )
        .all({ from, to: `${band}0` }) as { document: string }[];
      return rows.map((row) => row.document.slice(from.length));
    },
    transaction,
    close: async () => {
      flush();
      await sync.close();
      await checkpoints.close();
      database.pragma('wal_checkpoint(TRUNCATE)');
      database.close();
    },
  };
};
