import type { Leading } from '../../common/stage/leading.ts';
import { instrumentById } from '../../common/theory/instruments.ts';
import { useBoard } from '../state/board-context.tsx';
import { useObservable } from '../state/observable.ts';
import type { Person } from '../state/person.ts';

const partIn = ({ member, role }: Person, { baton, taps }: Leading): string => {
  if (role === 'leader') return ', leads';
  if (role === 'reader') return ', reads';
  return `${member === baton ? ', has the baton' : ''}${member === taps ? ', taps the beat' : ''}`;
};

/** Who is here, each in the colour that their cursor has, and who leads. */
export const PeopleList = () => {
  const board = useBoard();
  const people = useObservable(board.people);
  const leading = useObservable(board.leading);
  const { members } = useObservable(board.book);
  const { baton } = leading;
  const isAway = baton !== undefined && !people.some(({ member }) => member === baton);
  return (
    <ul className="people">
      {people.map((person) => (
        <li key={person.member}>
          <i
            className="people-mark"
            style={{ background: `var(--presence-${person.colour})` }}
            aria-hidden="true"
          />
          <span>
            <strong>{person.name || 'somebody'}</strong>
            {person.isMe && ' (you)'}
            <span className="dim">
              {' '}
              {instrumentById(person.part)?.name}
              {partIn(person, leading)}
            </span>
          </span>
        </li>
      ))}
      {isAway && (
        <li>
          <i className="people-mark" aria-hidden="true" />
          <span>
            <strong>{members.find(({ id }) => id === baton)?.name || 'somebody'}</strong>
            <span className="dim"> is away, has the baton</span>
          </span>
        </li>
      )}
    </ul>
  );
};
