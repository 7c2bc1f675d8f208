import type { Person } from '../state/person.ts';

/** Whoever sits at the drums trades by this name, as one says "trading with the drums". */
export const DRUMS = 'drums';

/** Who can be given a solo: everybody here by name, each once, and the drums. */
export const soloists = (people: readonly Pick<Person, 'name' | 'part'>[]): readonly string[] => {
  const names = people.filter(({ name, part }) => name !== '' && part !== 'drums').map(({ name }) => name);
  return [...new Set([...names, DRUMS])];
};

/** Picked by touch, in that order; a second touch leaves him or her out again. */
export const pick = (picked: readonly string[], name: string): readonly string[] =>
  picked.includes(name) ? picked.filter((one) => one !== name) : [...picked, name];

/** Those who trade: the ones picked, else who solos now and the drums. */
export const traders = (picked: readonly string[], soloist: string | null): readonly string[] => {
  if (picked.length > 1) return picked;
  const one = picked[0] ?? soloist;
  return one === null || one === undefined || one === DRUMS ? [] : [one, DRUMS];
};
