import { readJson, type TextStore, writeJson } from './stored-json.ts';

/** Names of a band's documents that hold something typed here which the relay does not have yet. Outlives the page. */
export interface UnsentList {
  readonly get: () => readonly string[];
  readonly set: (document: string, unsent: boolean) => void;
}

export const openUnsentList = (store: TextStore, band: string): UnsentList => {
  const name = `tillcue.unsent.${band}`;
  const get = (): readonly string[] => {
    const kept = readJson(store, name);
    return Array.isArray(kept) ? kept.filter((one): one is string => typeof one === 'string') : [];
  };
  return {
    get,
    set: (document, unsent) => {
      const kept = get();
      if (kept.includes(document) === unsent) return;
      writeJson(store, name, unsent ? [...kept, document] : kept.filter((one) => one !== document));
    },
  };
};
