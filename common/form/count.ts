/** `1 bar`, `2 bars`. */
export const count = (n: number, one: string): string => `${n} ${n === 1 ? one : `${one}s`}`;
