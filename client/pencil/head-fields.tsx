import { type Chart, HEAD_WORDS, type HeadWord } from '../../common/chart/chart.ts';
import { checkChart } from '../../common/chart/check-chart.ts';
import { setHead } from '../../common/document/edit-chart.ts';
import type { ChartHandle } from '../state/board.ts';
import { TextField } from './text-field.tsx';

const WORDS: Readonly<Record<HeadWord, readonly [label: string, example: string]>> = {
  title: ['Title', 'Slow Ferry'],
  by: ['By', 'who wrote it'],
  key: ['Key, concert', 'Eb blues'],
  time: ['Time', '4/4'],
  tempo: ['Tempo', '120'],
  feel: ['Feel', 'swing'],
  count: ['Bars of count-in', '2'],
};

const problemOf = (chart: Chart, word: HeadWord): string | undefined => {
  const value = chart.head[word];
  if (value === undefined) return undefined;
  return checkChart({ head: { [word]: value }, sections: [], road: [], lines: [] })[0]?.words;
};

/** What stands above the music: title, key, time, tempo, feel, count-in. */
export const HeadFields = ({ handle, chart }: { readonly handle: ChartHandle; readonly chart: Chart }) => (
  <section className="head-fields" aria-label="header">
    {HEAD_WORDS.map((word) => (
      <TextField
        key={word}
        label={WORDS[word][0]}
        placeholder={WORDS[word][1]}
        value={chart.head[word] ?? ''}
        disabled={!handle.canEdit}
        problem={problemOf(chart, word)}
        onWrite={(value) => setHead(handle.doc, word, value === '' ? undefined : value, handle.origin)}
      />
    ))}
  </section>
);
