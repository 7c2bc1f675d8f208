import type { Numeral as NumeralOf } from '../../common/theory/harmony/numeral.ts';
import { printNumeral } from '../../common/theory/harmony/numeral.ts';
import { printDegree } from '../../common/theory/plain-signs.ts';
import { textWidthEm } from './chord-metrics.ts';
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

/** Sizes of the raised figure and of what stands after a stroke (`numeral.css`). */
const RAISED = 0.62;
const AFTER_STROKE = 0.8;

/** Width of a numeral over its font size. Signs are as wide as a small letter at most. */
export const numeralWidthEm = ({ degree, figure, of, bass }: NumeralOf): number => {
  const width = (text: string): number => textWidthEm(text.replace(/[♭♯°ø]/gu, 'o'));
  const after = [of, bass].map((text) => (text === undefined ? 0 : width(`/${printDegree(text)}`)));
  return (
    width(printDegree(degree)) +
    RAISED * width(figure) +
    AFTER_STROKE * after.reduce((sum, each) => sum + each, 0)
  );
};
