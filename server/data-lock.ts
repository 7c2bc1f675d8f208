import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import Libsql from 'libsql';

const LOCK_FILE = 'relay.lock';

const isBusy = (error: unknown): boolean => (error as NodeJS.ErrnoException).code === 'SQLITE_BUSY';

/**
 * Makes sure that one relay alone works in a folder: each stage has one writer. Gives back what lets the folder go.
 *
 * The lock is one of the operating system, on a database of its own in which nothing is written: it ends with the
 * process, however that ends. The number of a process would not do, for after a power cut another may have it.
 * @throws with words where another relay has the folder
 */
export const lockData = (folder: string): (() => void) => {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const lock = new Libsql(join(folder, LOCK_FILE));
  try {
    lock.pragma('busy_timeout = 0');
    lock.exec('begin exclusive');
  } catch (error) {
    lock.close();
    if (!isBusy(error)) throw error;
    throw new Error(`Another relay works in the folder ${folder}. Stop it, or choose another with --data.`);
  }
  return () => {
    // Closing alone would keep it until the object is collected.
    lock.exec('rollback');
    lock.close();
  };
};
