import { type Observable, settable } from '../state/observable.ts';
import { readJson, type TextStore, writeJson } from './stored-json.ts';

/** Settings that outlive the page. */
export interface KeptSettings<Settings> extends Observable<Settings> {
  readonly change: (fields: Partial<Settings>) => void;
}

/**
 * Settings kept under a name: those of the first store that has any, written to all of them.
 * @param from makes sound settings of whatever was kept: what is missing or makes no sense is as at first
 */
export const keptSettings = <Settings>(
  name: string,
  from: (kept: unknown) => Settings,
  ...stores: readonly TextStore[]
): KeptSettings<Settings> => {
  const found = stores.map((store) => readJson(store, name)).find((kept) => kept !== undefined);
  const settings = settable(from(found));
  return {
    get: settings.get,
    subscribe: settings.subscribe,
    change: (fields) => {
      const next = { ...settings.get(), ...fields };
      settings.set(next);
      for (const store of stores) writeJson(store, name, next);
    },
  };
};
