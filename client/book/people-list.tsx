import { instrumentById } from '../../common/theory/instruments.ts';
import { useBoard } from '../state/board-context.tsx';
import { useObservable } from '../state/observable.ts';

/** Who is here, each in the colour that their cursor has. */
export const PeopleList = () => {
  const people = useObservable(useBoard().people);
  return (
    <ul className="people">
      {people.map(({ member, name, part, role, colour, isMe }) => (
        <li key={member}>
          <i className="people-mark" style={{ background: `var(--presence-${colour})` }} aria-hidden="true" />
          <span>
            <strong>{name || 'somebody'}</strong>
            {isMe && ' (you)'}
            <span className="dim">
              {' '}
              {instrumentById(part)?.name}
              {role === 'leader' ? ', leads' : role === 'reader' ? ', reads' : ''}
            </span>
          </span>
        </li>
      ))}
    </ul>
  );
};
