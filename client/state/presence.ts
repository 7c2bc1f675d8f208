import type { Awareness } from 'y-protocols/awareness';
import type { Role } from '../../common/protocol/roles.ts';
import type { Person } from './person.ts';

const COLOURS = 8;

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

export const text = (value: unknown): string => (typeof value === 'string' ? value : '');
const roleOf = (value: unknown): Role => (value === 'leader' || value === 'player' ? value : 'reader');
export const colourOf = (value: unknown): number =>
  typeof value === 'number' && Number.isInteger(value) && value >= 0 && value < COLOURS ? value : 0;

const pointOf = (value: unknown): Person['point'] =>
  isRecord(value) && typeof value['chart'] === 'string' && typeof value['bar'] === 'string'
    ? { chart: value['chart'], bar: value['bar'] }
    : null;

/** Who is here: leaders first, then by name. Everything comes from other machines, so nothing is taken for granted. */
export const peopleFrom = (
  states: ReadonlyMap<number, Readonly<Record<string, unknown>>>,
  me: { readonly member: string; readonly role: Role },
): Person[] => {
  const byMember = new Map<string, Person>();
  for (const state of states.values()) {
    const member = text(state['member']);
    // A stand that came back is seen twice until its old connection is noticed to be gone.
    if (member === '' || byMember.has(member)) continue;
    const isMe = member === me.member;
    byMember.set(member, {
      member,
      name: text(state['name']),
      part: text(state['part']),
      role: isMe ? me.role : roleOf(state['role']),
      colour: colourOf(state['colour']),
      errorMs: typeof state['errorMs'] === 'number' ? state['errorMs'] : null,
      point: pointOf(state['point']),
      isMe,
    });
  }
  const rank = (person: Person) => (person.role === 'leader' ? 0 : 1);
  return [...byMember.values()].sort(
    (a, b) => rank(a) - rank(b) || a.name.localeCompare(b.name) || (a.member < b.member ? -1 : 1),
  );
};

/**
 * The presence colour of a member: always the same where it is free, else the next free one.
 * @param taken colours of the others
 */
export const pickColour = (member: string, taken: ReadonlySet<number>): number => {
  let first = 0;
  for (const letter of member) first = (first * 31 + letter.charCodeAt(0)) % COLOURS;
  for (let step = 0; step < COLOURS; step++) {
    const colour = (first + step) % COLOURS;
    if (!taken.has(colour)) return colour;
  }
  return first;
};

/** The states of an awareness as an observable; the same map until somebody comes, goes or changes. */
export const awarenessStates = (awareness: Awareness) => {
  let states: ReadonlyMap<number, Readonly<Record<string, unknown>>> = new Map(awareness.getStates());
  const watchers = new Set<() => void>();
  awareness.on('change', () => {
    states = new Map(awareness.getStates());
    for (const changed of [...watchers]) changed();
  });
  return {
    get: () => states,
    subscribe: (changed: () => void) => {
      watchers.add(changed);
      return () => {
        watchers.delete(changed);
      };
    },
  };
};
