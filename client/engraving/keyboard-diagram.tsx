import type { CSSProperties } from 'react';
import type { KeyboardVoicing, PressedKey } from '../../common/shapes/keyboard/keyboard-voicing.ts';
import { type NoteNames, noteName } from '../../common/theory/note-name.ts';
import { ChordPieces } from './chord-pieces.tsx';
import { laidChord } from './chord-symbol.tsx';
import type { LaidChord } from './lay-chord.ts';
import { type LaidKey, type LaidKeyboard, layKeyboard } from './lay-keyboard.ts';
import { useNoteNames } from './note-names.ts';
import { spoken } from './spoken.ts';
import './keyboard-diagram.css';

export interface KeyboardDiagramProps {
  readonly voicing: Pick<KeyboardVoicing, 'keys'>;
  /** Writes the notes beside the keys. */
  readonly named?: boolean;
  readonly className?: string;
  /** Width of the widest keyboard of the line, in the units of the keys: all are drawn to its scale. */
  readonly widest?: number | undefined;
}

/** Of names in a row, in the units of the keys. */
const NAME_GAP = 1.2;
/** A line around the outermost keys. */
const EDGE = 0.5;

/**
 * A voicing on as many keys of a keyboard as it needs, as wide as its surroundings. Keys pressed are filled; the right
 * hand’s have a dot, the root a square.
 */
export const KeyboardDiagram = ({
  voicing: { keys },
  named = false,
  className = '',
  widest,
}: KeyboardDiagramProps) => {
  const names = useNoteNames();
  const laid = layKeyboard(
    keys.map(({ pitch }) => pitch),
    widest,
  );
  const pressed = new Map(keys.map((key) => [key.pitch, key]));
  const labels = laid.keys.flatMap((place): Label[] => {
    const key = pressed.get(place.pitch);
    return key === undefined ? [] : [{ place, laid: laidChord(key.note, names) }];
  });
  const rows = [false, true].map((isBlack) => labels.filter(({ place }) => place.isBlack === isBlack));
  const size = Math.min(...rows.map((row) => nameSize(row, laid)));
  const room = named ? size * 1.05 : 0;
  return (
    <svg
      className={`keyboard ${className}`}
      role="img"
      aria-label={spokenKeys(keys, names)}
      preserveAspectRatio="xMinYMax meet"
      style={
        widest
          ? ({ '--part': ((laid.width + 2 * EDGE) / (widest + 2 * EDGE)).toFixed(4) } as CSSProperties)
          : undefined
      }
      viewBox={[-EDGE, -room - EDGE, laid.width + 2 * EDGE, laid.length + 2 * (room + EDGE)].join(' ')}
    >
      {laid.keys.map((place) => (
        <Key key={place.pitch} place={place} pressed={pressed.get(place.pitch)} />
      ))}
      {named &&
        labels.map((label) => (
          <Name
            key={label.place.pitch}
            label={label}
            size={size}
            y={label.place.isBlack ? -size * 0.25 : laid.length + size * 0.88}
          />
        ))}
    </svg>
  );
};

const Key = ({ place, pressed }: { place: LaidKey; pressed: PressedKey | undefined }) => {
  const { isBlack, x, width, length, pitch } = place;
  return (
    <g
      className={`keyboard-key ${isBlack ? 'keyboard-black' : 'keyboard-white'}`}
      data-pitch={pitch}
      data-hand={pressed?.hand}
      data-degree={pressed?.degree}
    >
      <rect x={x} width={width} height={length} />
      {pressed !== undefined && (
        <Mark pressed={pressed} x={x + width / 2} y={length - width * 0.55} width={width} />
      )}
    </g>
  );
};

/** The root is a square, a key of the right hand has a dot, and its root a square with a kernel. */
const Mark = ({ pressed, x, y, width }: { pressed: PressedKey; x: number; y: number; width: number }) => {
  const isRight = pressed.hand === 'right';
  if (pressed.degree !== '1')
    return isRight ? <circle className="keyboard-mark" cx={x} cy={y} r={width * 0.27} /> : null;
  return [0.54, ...(isRight ? [0.22] : [])].map((share, at) => (
    <rect
      key={share}
      className={at === 0 ? 'keyboard-mark' : 'keyboard-kernel'}
      x={x - (width * share) / 2}
      y={y - (width * share) / 2}
      width={width * share}
      height={width * share}
    />
  ));
};

interface Label {
  readonly place: LaidKey;
  readonly laid: LaidChord;
}

const middleOf = ({ place: { x, width } }: Label): number => x + width / 2;

/** The size at which the names of a row neither touch each other nor stand out over the keyboard's ends. */
const nameSize = (labels: readonly Label[], { width, nameSize: most }: LaidKeyboard): number => {
  const fits = labels.flatMap((label, at) => {
    const toEdge = Math.min(middleOf(label), width - middleOf(label)) / (label.laid.widthEm / 2);
    const before = labels[at - 1];
    if (before === undefined) return [toEdge];
    const apart = middleOf(label) - middleOf(before) - NAME_GAP;
    return [toEdge, apart / ((before.laid.widthEm + label.laid.widthEm) / 2)];
  });
  return Math.min(most, ...fits);
};

const Name = ({ label, size, y }: { label: Label; size: number; y: number }) => {
  const left = middleOf(label) - (label.laid.widthEm * size) / 2;
  return (
    <g
      className="keyboard-name"
      transform={`translate(${left.toFixed(2)} ${y.toFixed(2)}) scale(${(size / 100).toFixed(4)})`}
    >
      <ChordPieces pieces={label.laid.pieces} />
    </g>
  );
};

/** What each hand holds, as a screen reader should say it: `left hand E flat, G`. */
export const spokenKeys = (keys: readonly PressedKey[], names: NoteNames): string =>
  (['left', 'right'] as const)
    .map((hand) => ({ hand, held: keys.filter((key) => key.hand === hand) }))
    .filter(({ held }) => held.length > 0)
    .map(({ hand, held }) => `${hand} hand ${held.map((key) => spokenKey(key, names)).join(', ')}`)
    .join('; ');

const spokenKey = ({ note, degree }: PressedKey, names: NoteNames): string =>
  `${spoken(noteName(note, names))}${degree === '1' ? ' (the root)' : ''}`;
