import type { Cue } from '../../common/stage/cue.ts';
import { pick } from './soloists.ts';
import './solo-picker.css';

/** Who is here, to be touched in the order in which they solo or trade. */
export const SoloPicker = ({
  names,
  picked,
  now,
  next,
  isFree,
  away = false,
  onPick,
  onCall,
}: {
  readonly names: readonly string[];
  readonly picked: readonly string[];
  /** Who solos now and who is next, null where nobody was named. */
  readonly now: string | null;
  readonly next: string | null;
  readonly isFree: (cue: Cue) => boolean;
  /** The relay does not answer. */
  readonly away?: boolean;
  readonly onPick: (picked: readonly string[]) => void;
  readonly onCall: (cue: Cue) => void;
}) => {
  // Who was picked and has gone home since stays in the order until left out.
  const all = [...names, ...picked.filter((name) => !names.includes(name))];
  const order: Cue = { kind: 'soloOrder', players: picked };
  return (
    <section className="solo-picker" aria-label="solo order">
      <h2>
        <b>Who solos, who trades</b>
        <span>touch them in order</span>
      </h2>
      <div className="solo-names">
        {all.map((name) => {
          const place = picked.indexOf(name) + 1;
          return (
            <button
              type="button"
              className="solo-name"
              key={name}
              aria-pressed={place > 0}
              onClick={() => onPick(pick(picked, name))}
            >
              <b>{name}</b>
              <small>{name === now ? 'solos now' : name === next ? 'is next' : ''}</small>
              {place > 0 && <span className="solo-place">{place}</span>}
            </button>
          );
        })}
        <button
          type="button"
          className="button solo-order"
          disabled={picked.length === 0 || !isFree(order)}
          aria-disabled={away}
          onClick={() => onCall(order)}
        >
          solo in this order
        </button>
      </div>
    </section>
  );
};
