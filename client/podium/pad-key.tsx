import { SpelledText } from '../engraving/spelled-text.tsx';
import { signOfCue, TradeSign } from '../engraving/trade-sign.tsx';
import type { KeyState } from './key-state.ts';

/** Letters of a name that may be cut. */
const LONG = 20;

/**
 * One key of the podium: the cue's sign, its name and what it does. It keeps its place when it goes blank. One that is
 * out of use can still be pressed, to be told that nothing went out.
 */
export const PadKey = ({
  id,
  state,
  onPress,
}: {
  readonly id: string;
  readonly state: KeyState;
  /** @param stampMs when the finger came up, on the clock of `performance.now()` */
  readonly onPress: (stampMs: number) => void;
}) => {
  const { face } = state;
  const kind = typeof face.cue === 'string' ? id : face.cue.kind;
  return (
    <button
      type="button"
      className="pad-key"
      data-key-id={id}
      data-cue-kind={kind}
      data-family={face.family}
      data-state={state.state}
      disabled={state.state === 'blank' || state.state === 'called'}
      aria-disabled={state.state === 'away'}
      aria-label={'words' in state ? `${face.name}: ${state.words}` : undefined}
      title={face.name.length > LONG ? face.name : undefined}
      onClick={({ timeStamp }) => onPress(timeStamp)}
    >
      {state.state !== 'blank' && (
        <>
          <b>{face.name}</b>
          <TradeSign name={face.sign ?? signOfCue(kind, face.family)} className="pad-sign" />
          <small>{state.state === 'called' ? 'called' : <SpelledText text={face.detail} />}</small>
        </>
      )}
    </button>
  );
};
