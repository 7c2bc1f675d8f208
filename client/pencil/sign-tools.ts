import { readBarText } from '../../common/chart/bar-text.ts';
import type { Bar } from '../../common/chart/chart.ts';
import { setBarSigns, setBarText } from '../../common/document/edit-chart.ts';
import type { TradeSignName } from '../engraving/trade-sign.tsx';
import { type AtHand, chosenBars, type Tool } from './tool.ts';

const hasWord = (text: string, word: string): boolean => text.includes(`"${word}"`);

/** Puts words before a bar's text, or takes them away where they stand in it. */
const toggleWord = (text: string, word: string): string =>
  hasWord(text, word)
    ? text.replace(`"${word}"`, '').replace(/ {2,}/g, ' ').trim()
    : `"${word}" ${text}`.trim();

/** Words over the chosen bars: taken away where all of them have them, else put over those that don't. */
export const toggleWords = (at: AtHand, word: string): void => {
  const { doc, origin } = at.handle;
  const bars = chosenBars(at);
  const isOn = bars.every(({ text }) => hasWord(text, word));
  doc.transact(() => {
    for (const { id, text } of bars) {
      if (hasWord(text, word) === isOn) setBarText(doc, id, toggleWord(text, word), origin);
    }
  }, origin);
};

/** Words over the first of the chosen bars, whatever they are. */
export const addWords = (at: AtHand, words: string): void => {
  const [bar] = chosenBars(at);
  const plain = words.replaceAll('"', "'").trim();
  if (bar && plain !== '')
    setBarText(at.handle.doc, bar.id, `"${plain}" ${bar.text}`.trim(), at.handle.origin);
};

const wordTool = (word: string, sign: TradeSignName): Tool => ({
  id: word,
  name: word,
  sign,
  needsBars: true,
  isOn: (bars) => bars.every(({ text }) => hasWord(text, word)),
  use: (at) => {
    toggleWords(at, word);
    return null;
  },
});

type Signs = Partial<Pick<Bar, 'left' | 'right' | 'ending' | 'lineEnd'>>;

/** A sign on the first or the last of the chosen bars, the next one at each touch. */
const signTool = (
  face: Pick<Tool, 'id' | 'name' | 'sign'>,
  end: 'first' | 'last',
  change: (bar: Bar) => Signs,
  isOn: (bar: Bar) => boolean,
): Tool => {
  const barOf = (bars: readonly Bar[]) => bars.at(end === 'first' ? 0 : -1);
  return {
    ...face,
    needsBars: true,
    isOn: (bars) => {
      const bar = barOf(bars);
      return bar !== undefined && isOn(bar);
    },
    use: (at) => {
      const bar = barOf(chosenBars(at));
      if (bar !== undefined) setBarSigns(at.handle.doc, bar.id, change(bar), at.handle.origin);
      return null;
    },
  };
};

/** The bar before again; words over the bar stay. */
const asRepeat = (text: string): string =>
  [...readBarText(text).flatMap((token) => (token.kind === 'word' ? [token.text] : [])), '%'].join(' ');

const NEXT_ENDING: Readonly<Record<string, string>> = { '': '1.', '1.': '2.', '2.': '3.', '3.': '' };
const NEXT_LINE: Readonly<Record<string, string>> = { '': '||', '||': '|]', '|]': '' };

const isRepeated = (bars: readonly Bar[]): boolean =>
  bars[0]?.left === '|:' && bars.at(-1)?.right.startsWith(':|') === true;

/** The tools for signs and words in the bars, in their places. */
export const SIGN_TOOLS: readonly Tool[] = [
  {
    id: 'repeatBar',
    name: 'repeat bar',
    sign: 'repeatBar',
    needsBars: true,
    use: (at) => {
      const { doc, origin } = at.handle;
      doc.transact(() => {
        for (const { id, text } of chosenBars(at)) setBarText(doc, id, asRepeat(text), origin);
      }, origin);
      return null;
    },
  },
  {
    id: 'repeat',
    name: 'repeat',
    sign: 'repeatStart',
    needsBars: true,
    isOn: isRepeated,
    use: (at) => {
      const bars = chosenBars(at);
      const [first, last] = [bars[0], bars.at(-1)];
      if (first === undefined || last === undefined) return null;
      const isOn = isRepeated(bars);
      const { doc, origin } = at.handle;
      doc.transact(() => {
        setBarSigns(doc, first.id, { left: isOn ? '' : '|:' }, origin);
        setBarSigns(doc, last.id, { right: isOn ? '' : ':|' }, origin);
      }, origin);
      return null;
    },
  },
  { id: 'times', name: 'times', sign: { letter: '×3' }, needsBars: true, tray: 'times' },
  signTool(
    { id: 'ending', name: 'ending', sign: { letter: '1. 2.' } },
    'first',
    ({ ending }) => ({ ending: NEXT_ENDING[ending] ?? '' }),
    ({ ending }) => ending !== '',
  ),
  signTool(
    { id: 'barLine', name: 'bar line', sign: 'finalBar' },
    'last',
    ({ right }) => ({ right: NEXT_LINE[right] ?? '||' }),
    ({ right }) => right === '||' || right === '|]',
  ),
  signTool(
    { id: 'line', name: 'line end', sign: { letter: '↵' } },
    'last',
    ({ lineEnd }) => ({ lineEnd: !lineEnd }),
    ({ lineEnd }) => lineEnd,
  ),
  wordTool('break', 'quarterRest'),
  wordTool('hold', 'fermata'),
  { id: 'words', name: 'words', sign: { letter: '“ ”' }, needsBars: true, tray: 'words' },
];
