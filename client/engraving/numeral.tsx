import type { Numeral as NumeralOf } from '../../common/theory/harmony/numeral.ts';
import { printNumeral } from '../../common/theory/harmony/numeral.ts';
import { printDegree } from '../../common/theory/plain-signs.ts';
import { SpelledText } from './spelled-text.tsx';
import './numeral.css';

/** A Roman numeral as it is set: the figure raised, what it belongs to after a stroke. */
export const Numeral = ({ numeral }: { readonly numeral: NumeralOf }) => {
  const { degree, figure, of, bass } = numeral;
  return (
    <span className="numeral" role="img" aria-label={printNumeral(numeral)}>
      <SpelledText text={printDegree(degree)} />
      {figure !== '' && (
        <sup>
          <SpelledText text={figure} />
        </sup>
      )}
      {of !== undefined && (
        <span className="numeral-of">
          /<SpelledText text={printDegree(of)} />
        </span>
      )}
      {bass !== undefined && (
        <span className="numeral-of">
          /<SpelledText text={printDegree(bass)} />
        </span>
      )}
    </span>
  );
};
