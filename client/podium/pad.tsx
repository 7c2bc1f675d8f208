import { signOfCue, TradeSign } from '../engraving/trade-sign.tsx';
import type { Landings } from './landing-words.ts';
import type { Column, KeyState, PodiumKey } from './podium-keys.ts';

export interface PadKey {
  readonly key: PodiumKey;
  readonly state: KeyState;
}

const COLUMNS: readonly { readonly column: Column; readonly title: string }[] = [
  { column: 'now', title: 'Now' },
  { column: 'phrase', title: 'End of this phrase' },
  { column: 'chorus', title: 'End of this chorus' },
];

const signOf = ({ cue, id, family }: PodiumKey) => signOfCue(cue?.kind ?? id, family);

const PadKeyButton = ({ podiumKey, state, onPress }: PadKeyButtonProps) => (
  <button
    type="button"
    className="pad-key"
    data-key-id={podiumKey.id}
    data-family={podiumKey.family}
    data-state={state.state}
    disabled={state.state !== 'ready'}
    aria-label={state.state === 'blank' ? `${podiumKey.name}: ${state.words}` : undefined}
    onClick={onPress}
  >
    {state.state !== 'blank' && (
      <>
        <b>{podiumKey.name}</b>
        <TradeSign name={signOf(podiumKey)} className="pad-sign" />
        <small>{state.state === 'called' ? 'called' : podiumKey.detail}</small>
      </>
    )}
  </button>
);

interface PadKeyButtonProps {
  readonly podiumKey: PodiumKey;
  readonly state: KeyState;
  readonly onPress: () => void;
}

/** The keys of the podium, sorted by where their cues land. */
export const Pad = ({
  keys,
  landings,
  onPress,
}: {
  readonly keys: readonly PadKey[];
  readonly landings: Landings;
  readonly onPress: (key: PodiumKey) => void;
}) => (
  <div className="pad">
    {COLUMNS.map(({ column, title }) => (
      <section className="pad-column" data-column={column} key={column} aria-label={title}>
        <h2>
          <b>{title}</b>
          {column === 'now' ? ' · next beat' : landings[column] !== '' && ` · ${landings[column]}`}
        </h2>
        <div className="pad-keys">
          {keys
            .filter(({ key }) => key.column === column)
            .map(({ key, state }) => (
              <PadKeyButton key={key.id} podiumKey={key} state={state} onPress={() => onPress(key)} />
            ))}
        </div>
      </section>
    ))}
  </div>
);
