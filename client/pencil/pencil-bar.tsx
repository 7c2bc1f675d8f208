import { Bar } from '../engraving/bar.tsx';
import type { WrittenBar } from '../stand/chart-lines.ts';
import type { Cursor } from '../state/chart-handle.ts';
import type { FreshMark } from '../state/fresh-marks.ts';
import { BarField } from './bar-field.tsx';
import type { Editing, EditingState } from './editing.ts';

const asTyped = (symbol: string): string => symbol;

/** One bar of the chart: drawn as it is written, touched to be typed into. */
export const PencilBar = ({ written, editing, state, isChosen, isStop, cursors, fresh }: PencilBarProps) => {
  const { bar, number, music, out } = written;
  const { draft, mode } = state;
  const isOpen = draft?.bar === bar.id;
  // A tablet that came back is seen twice for a while.
  const here = [...new Map(cursors.map((cursor) => [cursor.member, cursor])).values()];
  const words = `${number === 0 ? 'pick-up' : `bar ${number}`}: ${bar.text === '' ? 'empty' : bar.text}`;
  const touch = (extend: boolean) => {
    if (mode === 'upTo') {
      editing.choose(bar.id, true);
      editing.touchTo('edit');
    } else if (extend) editing.choose(bar.id, true);
    else editing.open(bar.id);
  };
  return (
    <Bar
      className="pencil-bar"
      data-bar-id={bar.id}
      data-chosen={isChosen ? '' : undefined}
      data-open={isOpen ? '' : undefined}
      // An empty bar looks empty, though the chord before goes on.
      music={bar.text === '' ? { ...music, cells: [] } : music}
      read={asTyped}
      number={number}
      left={bar.left}
      right={bar.right}
      ending={bar.ending}
      {...(out === undefined ? {} : { out })}
      asWritten
    >
      {isOpen ? (
        <BarField number={number} draft={draft} editing={editing} />
      ) : mode === 'move' || mode === 'copy' ? (
        <PlaceKeys number={number} isChosen={isChosen && mode === 'move'} bar={bar.id} editing={editing} />
      ) : (
        <button
          type="button"
          className="pencil-bar-key"
          aria-label={words}
          aria-pressed={isChosen}
          data-bar-key={bar.id}
          tabIndex={isStop ? 0 : -1}
          onClick={(event) => touch(event.shiftKey)}
        />
      )}
      {here[0] !== undefined && (
        <span className="bar-cursor" data-colour={here[0].colour}>
          <span className="bar-cursor-names">
            {here.map(({ member, name, colour }) => (
              <b key={member} data-colour={colour}>
                {name}
              </b>
            ))}
          </span>
        </span>
      )}
      {fresh !== undefined && here.length === 0 && (
        <small className="bar-fresh" data-colour={fresh.colour}>
          {fresh.name}, just now
        </small>
      )}
    </Bar>
  );
};

/** While bars are being moved or copied: the places before and behind this one. */
const PlaceKeys = ({ number, bar, isChosen, editing }: PlaceKeysProps) => (
  <span className="place-keys">
    {(['before', 'after'] as const).map((side) => (
      <button
        type="button"
        className="place-key"
        key={side}
        data-side={side}
        aria-label={`${side} bar ${number}`}
        disabled={isChosen}
        onClick={() => editing.place(bar, side)}
      />
    ))}
  </span>
);

interface PlaceKeysProps {
  readonly number: number;
  readonly bar: string;
  readonly isChosen: boolean;
  readonly editing: Editing;
}

interface PencilBarProps {
  readonly written: WrittenBar;
  readonly editing: Editing;
  readonly state: EditingState;
  readonly isChosen: boolean;
  /** The keyboard stops at this bar; from here the arrows go on. */
  readonly isStop: boolean;
  /** Others who stand in it. */
  readonly cursors: readonly Cursor[];
  readonly fresh: FreshMark | undefined;
}
