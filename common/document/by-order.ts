/**
 * Order by keys that are compared as strings: between two keys there is always room for another, so putting a
 * bar somewhere changes nobody else's bar.
 */
export interface Ordered {
  readonly id: string;
  readonly order: string;
}

/** By key, then by id, so that everybody reads the same order even where keys are equal. */
export const byOrder = (a: Ordered, b: Ordered): number =>
  a.order < b.order ? -1 : a.order > b.order ? 1 : a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
