import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const isRunning = (pid: number): boolean => {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // EPERM: it is there and belongs to somebody else.
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
};

/**
 * Makes sure that one relay alone works in a folder: each stage has one writer. Gives back what lets the folder go.
 * A lock left behind by a process that was killed does not count.
 * @throws with words where another relay has the folder
 */
export const lockData = (folder: string): (() => void) => {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const path = join(folder, 'relay.pid');
  const claim = () => writeFileSync(path, String(process.pid), { flag: 'wx' });
  try {
    claim();
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    const pid = Number(readFileSync(path, 'utf8'));
    if (pid !== process.pid && Number.isInteger(pid) && pid > 0 && isRunning(pid)) {
      throw new Error(
        `Another relay (process ${pid}) works in the folder ${folder}. Stop it, or choose another with --data. ` +
          `If that process is no relay, delete ${path}.`,
      );
    }
    rmSync(path);
    claim();
  }
  return () => rmSync(path, { force: true });
};
