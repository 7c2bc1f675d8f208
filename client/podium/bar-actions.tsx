import type { Cue } from '../../common/stage/cue.ts';
import { barsWords, type Stretch } from './letters.ts';
import { PressKey } from './press-key.tsx';

/** What can be done with the bar that was touched. It is pointed at on every stand as long as it is chosen. */
export const BarActions = ({
  chosen,
  legName,
  nowMs,
  isFree,
  away = false,
  pressTime,
  onCall,
  onLoop,
  onDone,
}: {
  readonly chosen: Stretch;
  readonly legName: string;
  readonly nowMs: number;
  readonly isFree: (cue: Cue) => boolean;
  /** The relay does not answer. */
  readonly away?: boolean;
  readonly pressTime: (stampMs: number) => number;
  readonly onCall: (cue: Cue) => void;
  /** Goes on to choosing what is looped. */
  readonly onLoop: () => void;
  readonly onDone: () => void;
}) => {
  const { leg, from: barIndex } = chosen;
  const actions: readonly { readonly name: string; readonly cue: (pressedAtMs: number) => Cue }[] = [
    { name: 'count in from here', cue: () => ({ kind: 'start', leg, barIndex }) },
    {
      name: 'here, now',
      cue: (pressedAtMs) => ({ kind: 'here', leg, barIndex, pressedAtMs }),
    },
    { name: 'go to', cue: () => ({ kind: 'goTo', leg, barIndex }) },
  ];
  return (
    <section className="here-row bar-actions" aria-label="the bar chosen">
      <p className="here-mode">
        <b>
          {legName}, {barsWords(chosen)}
        </b>
        <span className="dim"> on every stand</span>
      </p>
      <div className="here-spots">
        {actions
          .filter(({ cue }) => isFree(cue(nowMs)))
          .map(({ name, cue }) => (
            <PressKey
              key={name}
              away={away}
              onPress={(stampMs) => {
                onCall(cue(pressTime(stampMs)));
                if (!away) onDone();
              }}
            >
              {name}
            </PressKey>
          ))}
        <button type="button" className="button here-key" onClick={onLoop}>
          loop
        </button>
        <button type="button" className="button here-key" onClick={onDone}>
          done
        </button>
      </div>
    </section>
  );
};
