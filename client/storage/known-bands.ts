import type { Role } from '../../common/protocol/roles.ts';
import { type Observable, settable } from '../state/observable.ts';
import { readJson, type TextStore, writeJson } from './stored-json.ts';

/** A band this tablet has a key to. */
export interface KnownBand {
  readonly band: string;
  /** As last heard from the relay. */
  readonly name: string;
  /** The keys this tablet has seen, by the role they give. */
  readonly keys: Readonly<Partial<Record<Role, string>>>;
}

export interface KnownBands extends Observable<readonly KnownBand[]> {
  /** Adds a key; this tab uses it from now on, other tabs go on with theirs. */
  readonly learn: (band: string, name: string, role: Role, key: string) => void;
  /** Adds a key to show to others; this tab goes on with the one it has, unless that was renewed. */
  readonly keep: (band: string, name: string, role: Role, key: string) => void;
  readonly rename: (band: string, name: string) => void;
  /** The key and role this tab opens the band with: the one it joined with, else the strongest known. */
  readonly keyFor: (band: string) => { readonly key: string; readonly role: Role } | null;
  readonly forget: (band: string) => void;
}

const NAME = 'tillcue.bands';
const TAB_KEYS = 'tillcue.tab-keys';
const STRONGEST_FIRST: readonly Role[] = ['leader', 'player', 'reader'];

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const bandFrom = (value: unknown): KnownBand[] => {
  if (!isRecord(value) || typeof value['band'] !== 'string') return [];
  const kept = isRecord(value['keys']) ? value['keys'] : {};
  const keys: Partial<Record<Role, string>> = {};
  for (const role of STRONGEST_FIRST) {
    const key = kept[role];
    if (typeof key === 'string') keys[role] = key;
  }
  return [{ band: value['band'], name: typeof value['name'] === 'string' ? value['name'] : '', keys }];
};

export const openKnownBands = (ofTablet: TextStore, ofTab: TextStore): KnownBands => {
  // Another tab may have learnt something meanwhile, so the list is read anew before each change.
  const read = (): KnownBand[] => {
    const kept = readJson(ofTablet, NAME);
    return Array.isArray(kept) ? kept.flatMap(bandFrom) : [];
  };
  const bands = settable<readonly KnownBand[]>(read());
  const write = (next: readonly KnownBand[]) => {
    writeJson(ofTablet, NAME, next);
    bands.set(next);
  };
  const tabKeys = (): Record<string, unknown> => {
    const kept = readJson(ofTab, TAB_KEYS);
    return isRecord(kept) ? kept : {};
  };
  const add = (band: string, name: string, role: Role, key: string) => {
    const list = read();
    const known = list.find((one) => one.band === band);
    const next: KnownBand = {
      band,
      name: name || (known?.name ?? ''),
      keys: { ...known?.keys, [role]: key },
    };
    write(known ? list.map((one) => (one.band === band ? next : one)) : [...list, next]);
  };
  const noteForTab = (band: string, key: string) => writeJson(ofTab, TAB_KEYS, { ...tabKeys(), [band]: key });
  const changed = (band: string, change: (known: KnownBand) => KnownBand) =>
    write(read().map((known) => (known.band === band ? change(known) : known)));

  return {
    get: bands.get,
    subscribe: bands.subscribe,
    learn: (band, name, role, key) => {
      noteForTab(band, key);
      add(band, name, role, key);
    },
    keep: (band, name, role, key) => {
      const old = read().find((one) => one.band === band)?.keys[role];
      if (old !== undefined && tabKeys()[band] === old) noteForTab(band, key);
      add(band, name, role, key);
    },
    rename: (band, name) => {
      if (bands.get().some((known) => known.band === band && known.name !== name)) {
        changed(band, (known) => ({ ...known, name }));
      }
    },
    keyFor: (band) => {
      const known = read().find((one) => one.band === band);
      if (!known) return null;
      const ofThisTab = tabKeys()[band];
      const role =
        STRONGEST_FIRST.find((one) => known.keys[one] === ofThisTab && ofThisTab !== undefined) ??
        STRONGEST_FIRST.find((one) => known.keys[one] !== undefined);
      const key = role && known.keys[role];
      return role && key ? { role, key } : null;
    },
    forget: (band) => write(read().filter((known) => known.band !== band)),
  };
};
