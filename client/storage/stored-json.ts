/** Where words of this tablet are kept: `localStorage`, `sessionStorage`, or a Map where the browser has neither. */
export interface TextStore {
  readonly getItem: (name: string) => string | null;
  readonly setItem: (name: string, text: string) => void;
  readonly removeItem: (name: string) => void;
}

/** A store that lasts as long as the page. */
export const memoryStore = (): TextStore => {
  const texts = new Map<string, string>();
  return {
    getItem: (name) => texts.get(name) ?? null,
    setItem: (name, text) => {
      texts.set(name, text);
    },
    removeItem: (name) => {
      texts.delete(name);
    },
  };
};

/** The browser's store if it may be used (a private window or a full disk may forbid it), else one in memory. */
export const usableStore = (store: () => TextStore): TextStore => {
  try {
    const found = store();
    found.setItem('tillcue.probe', '1');
    found.removeItem('tillcue.probe');
    return found;
  } catch (error) {
    console.warn('This browser keeps nothing for us; settings last until the page is closed.', error);
    return memoryStore();
  }
};

/** What was written under this name, or undefined where there is nothing or it is no JSON. */
export const readJson = (store: TextStore, name: string): unknown => {
  const text = store.getItem(name);
  if (text === null) return undefined;
  try {
    return JSON.parse(text);
  } catch {
    // Written by something else, or cut off: the same as nothing. It is overwritten by the next change.
    return undefined;
  }
};

/** Writes a value; false where the store is full. */
export const writeJson = (store: TextStore, name: string, value: unknown): boolean => {
  try {
    store.setItem(name, JSON.stringify(value));
    return true;
  } catch (error) {
    console.warn(`This tablet could not keep "${name}".`, error);
    return false;
  }
};
