import { mayChange } from '../../common/protocol/roles.ts';
import type { LeadChange, Leading } from '../../common/stage/leading.ts';
import { instrumentById } from '../../common/theory/instruments.ts';
import { Sheet } from '../app/sheet.tsx';
import type { Person } from '../state/person.ts';

/** Who leads: the people here, the baton and the tap key that can be handed to them, the lock of the book. */
export const LeadSheet = ({
  people,
  me,
  leading,
  away,
  words,
  onLead,
  onClose,
}: {
  readonly people: readonly Person[];
  readonly me: Pick<Person, 'role' | 'member'>;
  readonly leading: Leading;
  readonly away: boolean;
  /** Why something was refused, null where nothing was. */
  readonly words: string | null;
  readonly onLead: (change: LeadChange) => void;
  readonly onClose: () => void;
}) => {
  const may = (change: LeadChange) => !away && mayChange(me.role, me.member, leading, change);
  const named = (member: string) =>
    people.find((one) => one.member === member)?.name ?? 'somebody who is away';
  const absent = (['baton', 'taps'] as const).filter(
    (what) => leading[what] !== undefined && !people.some(({ member }) => member === leading[what]),
  );
  return (
    <Sheet title="Who leads" onClose={onClose}>
      {(words !== null || away) && (
        <p className="strip" data-family="feel" role="alert">
          {words ?? 'The relay does not answer: nothing can be handed over until it is back.'}
        </p>
      )}
      <ul className="list lead-list">
        {people.map((person) => (
          <li className="list-row lead-row" key={person.member}>
            <p className="lead-who">
              <b>{person.name === '' ? 'Somebody' : person.name}</b>{' '}
              <span className="dim">{instrumentById(person.part)?.name ?? person.part}</span>
              <LeadWords person={person} leading={leading} />
            </p>
            {person.role === 'player' && (
              <div className="lead-keys">
                <Hand
                  what="baton"
                  person={person}
                  leading={leading}
                  give="pass the baton"
                  back="take the baton back"
                  may={may}
                  onLead={onLead}
                />
                <Hand
                  what="taps"
                  person={person}
                  leading={leading}
                  give="lend the taps"
                  back="take the taps back"
                  may={may}
                  onLead={onLead}
                />
              </div>
            )}
          </li>
        ))}
        {absent.map((what) => (
          <li className="list-row lead-row" key={what}>
            <p className="lead-who">{`${named(leading[what] ?? '')} has the ${what}`}</p>
            <div className="lead-keys">
              <button
                type="button"
                className="button lead-key"
                disabled={!may({ [what]: null })}
                onClick={() => onLead({ [what]: null })}
              >
                take the {what} back
              </button>
            </div>
          </li>
        ))}
      </ul>
      <button
        type="button"
        className="button lead-key"
        aria-pressed={leading.locked === true}
        disabled={!may({ locked: leading.locked !== true })}
        onClick={() => onLead({ locked: leading.locked !== true })}
      >
        {leading.locked ? 'The book is locked for the gig: unlock it' : 'Lock the book for the gig'}
      </button>
    </Sheet>
  );
};

const LeadWords = ({ person, leading }: { readonly person: Person; readonly leading: Leading }) => {
  const words = [
    person.role === 'leader' ? 'leads' : '',
    person.member === leading.baton ? 'has the baton' : '',
    person.member === leading.taps ? 'taps the beat' : '',
    person.isMe ? 'this tablet' : '',
  ].filter((one) => one !== '');
  return words.length === 0 ? null : <span className="lead-words"> · {words.join(', ')}</span>;
};

/** One key that hands something over, or takes it back from who has it. */
const Hand = ({
  what,
  person,
  leading,
  give,
  back,
  may,
  onLead,
}: {
  readonly what: 'baton' | 'taps';
  readonly person: Person;
  readonly leading: Leading;
  readonly give: string;
  readonly back: string;
  readonly may: (change: LeadChange) => boolean;
  readonly onLead: (change: LeadChange) => void;
}) => {
  const has = leading[what] === person.member;
  const change: LeadChange = { [what]: has ? null : person.member };
  return (
    <button
      type="button"
      className="button lead-key"
      aria-pressed={has}
      aria-label={`${has ? back : give}: ${person.name}`}
      disabled={!may(change)}
      onClick={() => onLead(change)}
    >
      {has ? back : give}
    </button>
  );
};
