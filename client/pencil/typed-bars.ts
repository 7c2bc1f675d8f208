import type { Bar } from '../../common/chart/chart.ts';
import { indexOutsideQuotes } from '../../common/chart/quoted-spans.ts';
import { readChart } from '../../common/chart/read-chart.ts';
import { plainText } from '../../common/chart/text-line.ts';

/** A section's name typed before what stands in its first bar: `[B] Fm7`. */
export const splitName = (typed: string): { readonly name: string | null; readonly rest: string } => {
  const [, name, rest] = /^\s*\[([^\]|]*)\](.*)$/s.exec(typed) ?? [];
  return name === undefined ? { name: null, rest: typed } : { name: name.trim(), rest: (rest ?? '').trim() };
};

/** A bar as it was typed or pasted. Signs that were not written are ''. */
export type TypedBar = Omit<Bar, 'id'>;

const hasBarLine = (typed: string): boolean => indexOutsideQuotes(plainText(typed), '|') !== -1;

const readTyped = (typed: string): TypedBar[] =>
  readChart(/^\s*:*\|/.test(typed) ? typed : `| ${typed}`).chart.sections.flatMap(({ bars }) =>
    bars.map(({ id: _, ...bar }) => bar),
  );

/**
 * What was typed into one bar, taken apart at its bar lines, with the signs that were typed. Without a bar line it
 * comes back as it is.
 * @example typedBars('Fm7 | "a | b" Bb7 :|').map((bar) => bar.text + bar.right) // ['Fm7', '"a | b" Bb7:|']
 */
export const typedBars = (typed: string): TypedBar[] => {
  const plain = { left: '', right: '', ending: '', lineEnd: false };
  if (!hasBarLine(typed)) return [{ text: typed.trim(), ...plain }];
  const bars = readTyped(typed);
  return bars.length > 0
    ? bars.map((bar) => ({ ...bar, lineEnd: false }))
    : [{ text: typed.trim(), ...plain }];
};

/**
 * Where the typing has gone on into the next bar: what is finished and what the next bar begins with. Null while the
 * last bar line may still become a sign (`||`, `|]`, `:|x3`, `|1.`) or nothing has been typed behind it.
 * @example goneOn('Fm7 | B') // { finished: 'Fm7 |', begun: 'B' }
 */
export const goneOn = (typed: string): { readonly finished: string; readonly begun: string } | null => {
  const [, finished, begun] = /^(.*\|(?:x\d+)?\s*)([A-Ga-g%"<r/([])$/.exec(typed) ?? [];
  if (finished === undefined || begun === undefined || !hasBarLine(finished)) return null;
  // The bar line may stand inside words that are still being typed.
  if (indexOutsideQuotes(plainText(`${finished}${begun}`), '|') === -1) return null;
  if (/^\s*\|:?\s*$/.test(finished) || lastIsInWords(finished)) return null;
  return { finished: finished.trimEnd(), begun };
};

/** An odd number of quotes: words are open. */
const lastIsInWords = (typed: string): boolean => (plainText(typed).match(/"/g) ?? []).length % 2 === 1;
