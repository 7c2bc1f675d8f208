import type { ReactNode } from 'react';
import type { KeyState } from './key-state.ts';
import type { Landings } from './landing-words.ts';
import { PadKey } from './pad-key.tsx';
import type { Column, PadPage, PodiumKey } from './podium-key.ts';
import './pad.css';

export interface ShownKey {
  readonly key: PodiumKey;
  readonly state: KeyState;
}

const COLUMNS: readonly { readonly column: Column; readonly title: string }[] = [
  { column: 'now', title: 'Now' },
  { column: 'phrase', title: 'End of this phrase' },
  { column: 'chorus', title: 'End of this chorus' },
];

/** A screen of keys, sorted by where their cues land. `children` stands before the columns. */
export const Pad = ({
  page,
  keys,
  landings,
  onPress,
  children,
}: {
  readonly page: PadPage;
  /** All of them belong to the page. */
  readonly keys: readonly ShownKey[];
  readonly landings: Landings;
  readonly onPress: (key: ShownKey) => void;
  readonly children?: ReactNode;
}) => (
  <div className="pad" data-page={page}>
    {children}
    {COLUMNS.filter(({ column }) => keys.some(({ key }) => key.column === column)).map(
      ({ column, title }) => (
        <section className="pad-column" data-column={column} key={column} aria-label={title}>
          <h2>
            <b>{title}</b>
            <span>{column === 'now' ? 'next beat' : landings[column]}</span>
          </h2>
          <div className="pad-keys">
            {keys
              .filter(({ key }) => key.column === column)
              .map((shown) => (
                <PadKey
                  key={shown.key.id}
                  id={shown.key.id}
                  state={shown.state}
                  onPress={() => onPress(shown)}
                />
              ))}
          </div>
        </section>
      ),
    )}
  </div>
);
