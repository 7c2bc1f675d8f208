import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ROLES, type Role } from '../common/protocol/roles.ts';

/**
 * The demo band's keys. The store has only hashes of keys, from which no link can be made; but a relay that is
 * started again must print the same links, since tablets keep them. So this one band's keys stand in a file of
 * their own that only its owner may read (mode 600).
 */
export interface DemoKeys {
  readonly band: string;
  readonly keys: Readonly<Record<Role, string>>;
}

const FILE = 'demo-band.json';

const isDemoKeys = (value: unknown): value is DemoKeys => {
  if (typeof value !== 'object' || value === null) return false;
  const { band, keys } = value as Record<string, unknown>;
  if (typeof band !== 'string' || typeof keys !== 'object' || keys === null) return false;
  return ROLES.every((role) => typeof (keys as Record<string, unknown>)[role] === 'string');
};

/** null where there is no such file. @throws where there is one that cannot be read */
export const readDemoKeys = (folder: string): DemoKeys | null => {
  let text: string;
  try {
    text = readFileSync(join(folder, FILE), 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw error;
  }
  const keys: unknown = JSON.parse(text);
  if (!isDemoKeys(keys))
    throw new Error(`The file ${join(folder, FILE)} is not what Tillcue wrote. Delete it.`);
  return keys;
};

export const writeDemoKeys = (folder: string, keys: DemoKeys): void =>
  writeFileSync(join(folder, FILE), `${JSON.stringify(keys, null, 2)}\n`, { mode: 0o600 });
