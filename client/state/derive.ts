import type { Observable } from './observable.ts';

/**
 * An observable computed from others, anew only when asked after one of them has changed. Nothing is
 * computed, and nothing watched, while nobody subscribes; then `get` computes each time a source differs.
 */
export const derive = <Sources extends readonly unknown[], Value>(
  sources: { readonly [Index in keyof Sources]: Observable<Sources[Index]> },
  compute: (...values: Sources) => Value,
): Observable<Value> => {
  let values: Sources | undefined;
  let value: Value;
  return {
    get: () => {
      const next = sources.map((source) => source.get()) as unknown as Sources;
      if (!values || next.some((one, index) => !Object.is(one, values?.[index]))) {
        values = next;
        value = compute(...next);
      }
      return value;
    },
    subscribe: (changed) => {
      const ends = sources.map((source) => source.subscribe(changed));
      return () => {
        for (const end of ends) end();
      };
    },
  };
};
