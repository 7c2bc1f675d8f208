import { useObservable } from '../state/observable.ts';
import type { WrittenOver as Over, OwnWords } from './own-words.ts';

/** More places than so many are said in one line. */
const APART = 2;

const nameOf = (over: readonly Over[]): string => {
  const names = new Set(over.map(({ who }) => who ?? 'Somebody'));
  return names.size === 1 ? ([...names][0] ?? '') : 'Others';
};

/** What one has typed and somebody else wrote over: to be put back with one touch, or let go. */
export const WrittenOver = ({ own, canEdit, writing }: WrittenOverProps) => {
  const over = useObservable(own).filter(({ place }) => place !== writing);
  const groups = over.length > APART ? [over] : over.map((one) => [one]);
  return groups.map((group) => {
    const places = group.map(({ place }) => place);
    const [first] = group;
    const isOne = group.length === 1;
    return (
      <div className="written-over strip" role="status" key={places.join()}>
        <p>
          {nameOf(group)} wrote over {isOne ? `your ${first?.called}` : `${group.length} things of yours`}:{' '}
          {group.map(({ place, called, text }, at) => (
            <span key={place}>
              {at > 0 && ' · '}
              {!isOne && `${called} `}
              <b>{text}</b>
            </span>
          ))}
        </p>
        <span className="button-row">
          {canEdit && (
            <button type="button" className="button" onClick={() => own.putBack(places)}>
              put {isOne ? 'it' : 'them'} back
            </button>
          )}
          <button type="button" className="button" onClick={() => own.letGo(places)}>
            let {isOne ? 'it' : 'them'} go
          </button>
        </span>
      </div>
    );
  });
};

interface WrittenOverProps {
  readonly own: OwnWords;
  readonly canEdit: boolean;
  /** The place of the bar that is being typed into: what happens to it is said there. */
  readonly writing: string | null;
}
