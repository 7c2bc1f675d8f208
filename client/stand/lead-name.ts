import type { Leading } from '../../common/stage/leading.ts';
import type { Person } from '../state/person.ts';

/**
 * Who leads now, as it is shown: whoever has the baton, else the first who came by a leader's link; '' where
 * nobody is here who could.
 */
export const leadName = (
  people: readonly Pick<Person, 'member' | 'name' | 'role'>[],
  leading: Leading,
): string =>
  (
    people.find(({ member, role }) => role === 'player' && member === leading.baton) ??
    people.find(({ role }) => role === 'leader')
  )?.name ?? '';
