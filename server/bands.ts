import { createHash, randomBytes, randomInt, timingSafeEqual } from 'node:crypto';
import { withoutControls } from '../common/chart/without-controls.ts';
import { LIMITS } from '../common/protocol/limits.ts';
import { ROLES, type Role } from '../common/protocol/roles.ts';
import { failed, ok, type Result } from '../common/result.ts';
import type { Store } from './store.ts';

/** The bands of this relay, their keys and evening codes. Keys are kept as hashes only. */
export interface Bands {
  readonly make: (name: string) => { readonly band: string; readonly keys: Readonly<Record<Role, string>> };
  readonly nameOf: (band: string) => string | null;
  readonly rename: (band: string, name: string) => void;
  /** What a key allows in a band; null where either is unknown. */
  readonly roleOf: (band: string, key: string) => Role | null;
  /** A new key in the place of all keys of that role, those from evening codes included. */
  readonly renew: (band: string, role: Role) => string;
  /** The evening code in force. */
  readonly codeOf: (band: string) => string | null;
  /** A new one in the place of the old. */
  readonly renewCode: (band: string) => string;
  /** The band with this code in force, and a player's key made for whoever typed it. */
  readonly enter: (
    code: string,
  ) => { readonly band: string; readonly name: string; readonly key: string } | null;
}

/** 128 random bits as 22 letters, digits, - and _. */
const makeKey = (): string => randomBytes(16).toString('base64url');
const makeBandId = (): string => randomBytes(8).toString('hex');
const makeCode = (): string => String(randomInt(1_000_000)).padStart(6, '0');

/** The key has all the randomness there is to have, so a plain hash of it tells nothing and needs no salt. */
const hashOf = (key: string): Buffer => createHash('sha256').update(key).digest();

/** The name of a band as it is kept: on one line, not empty, not too long. */
export const readBandName = (name: unknown): Result<string, string> => {
  if (typeof name !== 'string') return failed('A band needs a name: send {"name": "…"}.');
  const plain = withoutControls(name.replace(/\s+/gu, ' ')).trim();
  if (plain === '') return failed('A band needs a name.');
  if ([...plain].length > LIMITS.bandNameLength) {
    return failed(`A band’s name has at most ${LIMITS.bandNameLength} letters.`);
  }
  return ok(plain);
};

export const bands = (store: Store, nowMs: () => number): Bands => {
  const { database } = store;
  const insertBand = database.prepare('insert into bands (id, name, made_ms) values (?, ?, ?)');
  const band = database.prepare('select name from bands where id = ?').raw(true);
  const setName = database.prepare('update bands set name = ? where id = ?');
  const insertKey = database.prepare('insert into keys (hash, band, role, made_ms) values (?, ?, ?, ?)');
  const keyRow = database.prepare('select hash, role from keys where hash = ? and band = ?').raw(true);
  const dropKeys = database.prepare('delete from keys where band = ? and role = ?');
  const code = database.prepare('select code from codes where band = ?').raw(true);
  const bandOfCode = database.prepare('select band from codes where code = ?').raw(true);
  const setCode = database.prepare('insert or replace into codes (band, code) values (?, ?)');

  const first = (rows: unknown[]): string | null => {
    const [row] = rows as [string][];
    return row?.[0] ?? null;
  };
  const mint = (id: string, role: Role): string => {
    const key = makeKey();
    insertKey.run(hashOf(key), id, role, nowMs());
    return key;
  };
  const nameOf = (id: string) => first(band.all(id));
  return {
    make: (name) =>
      store.transaction(() => {
        const id = makeBandId();
        insertBand.run(id, name, nowMs());
        const [leader, player, reader] = ROLES.map((role) => mint(id, role)) as [string, string, string];
        return { band: id, keys: { leader, player, reader } };
      }),
    nameOf,
    rename: (id, name) => store.transaction(() => setName.run(name, id)),
    roleOf: (id, key) => {
      const hash = hashOf(key);
      const [row] = keyRow.all(hash, id) as [Uint8Array, Role][];
      return row !== undefined && timingSafeEqual(hash, row[0]) ? row[1] : null;
    },
    renew: (id, role) =>
      store.transaction(() => {
        dropKeys.run(id, role);
        return mint(id, role);
      }),
    codeOf: (id) => first(code.all(id)),
    renewCode: (id) =>
      store.transaction(() => {
        let made = makeCode();
        while (bandOfCode.all(made).length > 0) made = makeCode();
        setCode.run(id, made);
        return made;
      }),
    enter: (typed) => {
      const id = first(bandOfCode.all(typed));
      if (id === null) return null;
      return store.transaction(() => ({ band: id, name: nameOf(id) ?? '', key: mint(id, 'player') }));
    },
  };
};
