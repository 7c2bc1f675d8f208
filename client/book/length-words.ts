import type { ChartLength } from '../../common/document/book-document.ts';
import { USUAL_ASSUMPTIONS } from '../../common/form/length.ts';
import { minutesWords } from '../stand/place-words.ts';

const barsWords = (bars: number): string => (bars === 1 ? '1 bar' : `${bars} bars`);

/** @example lengthWords({ formBars: 16, lengthMs: 267_000, isAssumed: true }) // '16 bars, about 4:27' */
export const lengthWords = ({ formBars, lengthMs, isAssumed }: ChartLength): string =>
  formBars === 0
    ? 'nothing written yet'
    : `${barsWords(formBars)}, ${isAssumed ? 'about ' : ''}${minutesWords(lengthMs)}`;

/** What the length counts, and what it takes for granted. */
export const lengthTold = ({ formBars, lengthMs, isAssumed }: ChartLength): string => {
  const { openPasses, vampPasses } = USUAL_ASSUMPTIONS;
  if (formBars === 0) return 'No bars are written yet.';
  const played = `${barsWords(formBars)} once through the form. Played by the road map ${minutesWords(lengthMs)}, without the count-in`;
  return isAssumed
    ? `${played}: what is open is taken ${openPasses} times, a vamp ${vampPasses} times.`
    : `${played}.`;
};
