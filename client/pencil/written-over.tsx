import { useObservable } from '../state/observable.ts';
import type { WrittenOver as Over, OwnBars } from './own-bars.ts';

/** More bars than so many are said in one line. */
const APART = 2;

const nameOf = (over: readonly Over[]): string => {
  const names = new Set(over.map(({ who }) => who ?? 'Somebody'));
  return names.size === 1 ? ([...names][0] ?? '') : 'Others';
};

/** What one has typed into bars that somebody else wrote over: to be put back with one touch, or let go. */
export const WrittenOver = ({ own, canEdit, writing }: WrittenOverProps) => {
  const over = useObservable(own).filter(({ bar }) => bar !== writing);
  const groups = over.length > APART ? [over] : over.map((one) => [one]);
  return groups.map((group) => {
    const bars = group.map(({ bar }) => bar);
    const [first] = group;
    const isOne = group.length === 1;
    return (
      <div className="written-over strip" role="status" key={bars.join()}>
        <p>
          {nameOf(group)} wrote over {isOne ? `your bar ${first?.number}` : `${group.length} bars of yours`}:{' '}
          {group.map(({ bar, number, text }, at) => (
            <span key={bar}>
              {at > 0 && ' · '}
              {!isOne && `${number} `}
              <b>{text}</b>
            </span>
          ))}
        </p>
        <span className="button-row">
          {canEdit && (
            <button type="button" className="button" onClick={() => own.putBack(bars)}>
              put {isOne ? 'it' : 'them'} back
            </button>
          )}
          <button type="button" className="button" onClick={() => own.letGo(bars)}>
            let {isOne ? 'it' : 'them'} go
          </button>
        </span>
      </div>
    );
  });
};

interface WrittenOverProps {
  readonly own: OwnBars;
  readonly canEdit: boolean;
  /** The bar that is being typed into: what happens to it is said there. */
  readonly writing: string | null;
}
