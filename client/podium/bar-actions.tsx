import type { Road } from '../../common/form/road.ts';
import type { Cue } from '../../common/stage/cue.ts';
import { judge } from '../../common/stage/judge.ts';
import type { Performance } from '../../common/stage/perform.ts';
import type { ChosenBar } from './bar-choice.tsx';

const nameOf = (chosen: ChosenBar, road: Road): string => {
  const leg = road.legs.find(({ id }) => id === chosen.leg);
  return `Bar ${chosen.barIndex + 1}${leg === undefined ? '' : ` of ${leg.name}`}`;
};

/** What can be done with the bar that was touched. It is pointed at on every stand as long as it is chosen. */
export const BarActions = ({
  chosen,
  road,
  performance,
  nowMs,
  away,
  onCall,
  onDone,
}: {
  readonly chosen: ChosenBar;
  readonly road: Road;
  readonly performance: Performance;
  readonly nowMs: number;
  readonly away: boolean;
  readonly onCall: (cue: Cue) => void;
  readonly onDone: () => void;
}) => {
  const { leg, barIndex } = chosen;
  const actions: readonly { readonly name: string; readonly cue: Cue }[] = [
    { name: 'count in from here', cue: { kind: 'start', leg, barIndex } },
    { name: 'here, now', cue: { kind: 'here', leg, barIndex } },
    { name: 'go to it after this phrase', cue: { kind: 'goTo', leg, barIndex } },
  ];
  return (
    <section className="called-row bar-actions" aria-label="the bar chosen">
      <p>
        <b>{nameOf(chosen, road)}</b> <span className="dim">shown on every stand</span>
      </p>
      <div className="button-row">
        {actions
          .filter(({ cue }) => !away && judge(performance, cue, nowMs).ok)
          .map(({ name, cue }) => (
            <button
              type="button"
              className="button"
              key={name}
              onClick={() => {
                onCall(cue);
                onDone();
              }}
            >
              {name}
            </button>
          ))}
        <button type="button" className="button-quiet" onClick={onDone}>
          done
        </button>
      </div>
    </section>
  );
};
