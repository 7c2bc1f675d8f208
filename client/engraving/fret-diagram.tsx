import type { FretShape } from '../../common/shapes/fretboard/fret-shape.ts';
import { fretDiagramWords, type LaidString, layFretDiagram } from './lay-fret-diagram.ts';
import { spoken } from './spoken.ts';
import './fret-diagram.css';

const DOT = 9.5;
const SQUARE = 18;
const MARK = 6;

const Finger = ({ x, y, isRoot }: { x: number; y: number; isRoot: boolean }) =>
  isRoot ? (
    <rect x={x - SQUARE / 2} y={y - SQUARE / 2} width={SQUARE} height={SQUARE} data-root="" />
  ) : (
    <circle cx={x} cy={y} r={DOT} />
  );

/** Above the nut: x for a silent string, o for an open one, a square where the open string is the root. */
const Mark = ({ x, y, mark, isRoot }: Pick<LaidString, 'x' | 'mark' | 'isRoot'> & { y: number }) => {
  if (mark === 'x')
    return (
      <path
        className="fret-silent"
        d={`M${x - MARK} ${y - MARK} l${2 * MARK} ${2 * MARK} m0 ${-2 * MARK} l${-2 * MARK} ${2 * MARK}`}
      />
    );
  if (mark === null) return null;
  return isRoot ? (
    <rect className="fret-open" x={x - MARK} y={y - MARK} width={2 * MARK} height={2 * MARK} data-root="" />
  ) : (
    <circle className="fret-open" cx={x} cy={y} r={MARK} />
  );
};

/**
 * A shape on the fretboard: strings that sound are heavy, the root is square, other fingers are round, the fret number
 * stands outside. As wide as what surrounds it, in its colour.
 * @param narrow its box is higher than wide: the fret number stands above
 * @param frets so many are drawn at least
 * @param strings names of the strings in the order in which they lie, for who listens to the page
 */
export const FretDiagram = ({
  shape,
  leftHanded,
  strings,
  narrow = false,
  frets,
}: {
  shape: FretShape;
  leftHanded: boolean;
  strings: readonly string[];
  narrow?: boolean;
  frets?: number | undefined;
}) => {
  const laid = layFretDiagram(shape, leftHanded, narrow, frets);
  const [top = 0] = laid.frets;
  const bottom = laid.frets.at(-1) ?? top;
  return (
    <svg
      className="fret-diagram"
      role="img"
      aria-label={fretDiagramWords(shape, strings.map(spoken))}
      preserveAspectRatio="xMinYMax meet"
      viewBox={`0 0 ${laid.width} ${laid.height}`}
    >
      {laid.frets.map((y) => (
        <line key={y} className="fret-wire" x1={laid.leftX} x2={laid.rightX} y1={y} y2={y} />
      ))}
      {laid.strings.map(({ x, sounds }) => (
        <line
          key={x}
          className={sounds ? 'fret-string' : 'fret-unplayed'}
          x1={x}
          x2={x}
          y1={top}
          y2={bottom}
        />
      ))}
      {laid.hasNut && <line className="fret-nut" x1={laid.leftX} x2={laid.rightX} y1={top} y2={top} />}
      {laid.number !== null && (
        <text
          x={laid.number.x}
          y={laid.number.y}
          textAnchor={leftHanded === narrow ? 'end' : 'start'}
          className="fret-number"
          data-narrow={narrow ? '' : undefined}
        >
          {laid.number.fret}
        </text>
      )}
      {laid.barres.map(({ x1, x2, y }) => (
        <line key={`${x1} ${y}`} className="fret-barre" x1={x1} x2={x2} y1={y} y2={y} />
      ))}
      {laid.strings.map(({ x, mark, isRoot }) => (
        <Mark key={x} x={x} y={laid.marksY} mark={mark} isRoot={isRoot} />
      ))}
      {laid.strings.map(({ x, y, isRoot }) => y !== null && <Finger key={x} x={x} y={y} isRoot={isRoot} />)}
    </svg>
  );
};
