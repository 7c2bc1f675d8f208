import { type Chart, type ChartHead, HEAD_WORDS, type HeadWord } from '../../common/chart/chart.ts';
import { checkChart } from '../../common/chart/check-chart.ts';
import { setHead } from '../../common/document/edit-chart.ts';
import type { ChartHandle } from '../state/chart-handle.ts';
import { HEAD_LABELS } from './head-labels.ts';
import { TextField } from './text-field.tsx';

/** What the empty fields show, and how many letters are to be seen. */
const EXAMPLES: Readonly<Record<HeadWord, readonly [example: string, letters?: number]>> = {
  title: ['Without a title'],
  by: ['–', 8],
  key: ['–', 8],
  time: ['4/4', 4],
  tempo: ['120', 4],
  feel: ['–', 8],
  count: ['2', 5],
};

/** What is wrong with a header line, in words. */
export const headProblem = (word: HeadWord, value: string | undefined): string | undefined => {
  const head: ChartHead = value === undefined ? {} : { [word]: value };
  return checkChart({ head, sections: [], road: [], lines: [] })[0]?.words;
};

/** One line of the header, shown and typed in its place. */
export const HeadField = ({
  handle,
  chart,
  word,
}: {
  readonly handle: ChartHandle;
  readonly chart: Chart;
  readonly word: HeadWord;
}) => {
  const [example, letters] = EXAMPLES[word];
  return (
    <TextField
      className={`head-field head-of-${word}`}
      label={HEAD_LABELS[word]}
      placeholder={example}
      {...(letters === undefined ? {} : { fit: letters })}
      bare={word === 'title'}
      value={chart.head[word] ?? ''}
      disabled={!handle.canEdit}
      problem={headProblem(word, chart.head[word])}
      onWrite={(value) => setHead(handle.doc, word, value === '' ? undefined : value, handle.origin)}
    />
  );
};

/** What stands above the music beside the title: by, key, time, tempo, feel, count-in. */
export const HeadFields = ({ handle, chart }: { readonly handle: ChartHandle; readonly chart: Chart }) => (
  <section className="head-fields" aria-label="header">
    {HEAD_WORDS.filter((word) => word !== 'title').map((word) => (
      <HeadField key={word} handle={handle} chart={chart} word={word} />
    ))}
  </section>
);
