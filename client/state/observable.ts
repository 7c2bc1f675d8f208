import { useSyncExternalStore } from 'react';

/** A value that changes over time. `get` returns the same object until it changes. */
export interface Observable<Value> {
  readonly get: () => Value;
  /** Calls `changed` after every change until the returned function is called. */
  readonly subscribe: (changed: () => void) => () => void;
}

/** The value now, re-rendering the component when it changes. */
export const useObservable = <Value>(source: Observable<Value>): Value =>
  useSyncExternalStore(source.subscribe, source.get);

/** An observable that is set from outside; setting the same value again tells nobody. */
export interface Settable<Value> extends Observable<Value> {
  readonly set: (value: Value) => void;
}

export const settable = <Value>(first: Value): Settable<Value> => {
  let value = first;
  const watchers = new Set<() => void>();
  return {
    get: () => value,
    set: (next) => {
      if (Object.is(next, value)) return;
      value = next;
      for (const changed of [...watchers]) changed();
    },
    subscribe: (changed) => {
      watchers.add(changed);
      return () => watchers.delete(changed);
    },
  };
};
