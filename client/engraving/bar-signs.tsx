import './bar-signs.css';

const Dots = ({ x }: { x: number }) => (
  <>
    <circle cx={x} cy="40" r="3.4" />
    <circle cx={x} cy="60" r="3.4" />
  </>
);

/** `|:` at the left of a bar: thick and thin line over its whole height, dots in the middle. */
export const LeftSign = () => (
  <span className="bar-sign bar-sign-left" role="img" aria-label="repeat from here">
    <svg viewBox="0 0 24 100" aria-hidden="true">
      <Dots x={19} />
    </svg>
  </span>
);

/** `||`, `|]`, `:|`, `:|x3` at the right of a bar. */
export const RightSign = ({ sign }: { sign: string }) => {
  const repeat = sign.startsWith(':|');
  const times = sign.match(/x\s*(\d+)/)?.[1];
  const kind = repeat ? 'repeat' : sign === '|]' ? 'final' : 'double';
  const words = repeat
    ? times === undefined
      ? 'repeat'
      : `repeat, ${times} times in all`
    : kind === 'final'
      ? 'end'
      : 'double bar line';
  return (
    <span className="bar-sign bar-sign-right" data-kind={kind} role="img" aria-label={words}>
      {repeat && (
        <svg viewBox="0 0 24 100" aria-hidden="true">
          <Dots x={5} />
        </svg>
      )}
      {times !== undefined && (
        <span className="bar-times" aria-hidden="true">
          ×{times}
        </span>
      )}
    </span>
  );
};

/** The bar before (or the two bars before) once more. */
export const RepeatSign = ({ bars }: { bars: 1 | 2 }) => (
  <svg
    className="repeat-sign"
    viewBox="0 0 100 80"
    role="img"
    aria-label={bars === 1 ? 'the bar before again' : 'the two bars before again'}
  >
    {(bars === 1 ? [0] : [-9, 9]).map((shift) => (
      <path key={shift} d={`M${26 + shift} 66 L${60 + shift} 14 H${72 + shift} L${38 + shift} 66 Z`} />
    ))}
    <circle cx={bars === 1 ? 30 : 22} cy="26" r="7" />
    <circle cx={bars === 1 ? 68 : 76} cy="54" r="7" />
  </svg>
);
