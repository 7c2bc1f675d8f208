import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import Libsql from 'libsql';
import { STORE_MIGRATIONS } from './store-schema.ts';

export type Database = Libsql.Database;

export const DATABASE_FILE = 'tillcue.db';

/**
 * The database in this folder, made or brought up to date where needed.
 *
 * In WAL mode with `synchronous = normal` a commit is in the hands of the operating system: a killed process
 * loses nothing. Against a power cut the log is synced beside it (see `wal-sync`).
 * @throws with words where the folder cannot be used or the database is of a newer version
 */
export const openDatabase = (folder: string): Database => {
  mkdirSync(folder, { recursive: true });
  const database = new Libsql(join(folder, DATABASE_FILE));
  database.pragma('journal_mode = WAL');
  database.pragma('synchronous = NORMAL');
  database.pragma('busy_timeout = 2000');
  // Checkpoints are made by the checkpointer, off the event loop.
  database.pragma('wal_autocheckpoint = 0');
  migrate(database);
  return database;
};

const migrate = (database: Database): void => {
  const row = database.prepare('pragma user_version').get() as { user_version: number };
  if (row.user_version > STORE_MIGRATIONS.length) {
    database.close();
    throw new Error(
      'The database was written by a newer Tillcue. Start that one, or choose another --data folder.',
    );
  }
  for (let version = row.user_version; version < STORE_MIGRATIONS.length; version++) {
    database.exec(
      `begin immediate; ${STORE_MIGRATIONS[version]}; pragma user_version = ${version + 1}; commit;`,
    );
  }
};
