import './book.css';
import { type FormEvent, useDeferredValue, useEffect, useMemo, useRef, useState } from 'react';
import type { Problem } from '../../common/chart/problem.ts';
import { readChart } from '../../common/chart/read-chart.ts';
import { unroll } from '../../common/form/unroll.ts';
import { mayWrite } from '../../common/protocol/roles.ts';
import { bandHref, pencilHref } from '../app/route.ts';
import { useServices } from '../app/services.ts';
import { useOpenBoard } from '../app/use-open-board.ts';
import { goTo } from '../app/use-route.ts';
import { useObservable } from '../state/observable.ts';
import { readJson, writeJson } from '../storage/stored-json.ts';
import { LockedStrip } from './locked-strip.tsx';
import { type NewChart, newChartProblems, newChartText } from './new-chart-text.ts';
import { placeInText, withRoadLines } from './place-in-text.ts';
import { ProblemList } from './problem-list.tsx';
import { putChart } from './put-chart.ts';

const BLANK: NewChart = { title: '', by: '', key: '', time: '4/4', tempo: '120', bars: 12 };

const EXAMPLE = `title: Low Tide
key: F
time: 4/4
tempo: 132

[A]
| Fmaj7 | D7 | Gm7 | C7 |
| Am7 D7 | Gm7 C7 | F6 | % |]

road:
  Head: A x2
  Solos: A open
  Head out: A`;

interface EmptyChartProps {
  readonly fields: NewChart;
  readonly onFields: (fields: NewChart) => void;
}

const EmptyChart = ({ fields, onFields: setFields }: EmptyChartProps) => {
  const board = useOpenBoard();
  const { makeId } = useServices();
  const [tried, setTried] = useState(false);
  const set = (name: keyof NewChart) => (event: { readonly target: { readonly value: string } }) =>
    setFields({ ...fields, [name]: event.target.value });
  const problems = newChartProblems(fields);
  const add = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (problems.length > 0) return;
    const { chart } = readChart(newChartText(fields), makeId);
    goTo(pencilHref(board.band, putChart(board, chart, makeId)), 'instead');
  };
  const isWrong = (name: keyof NewChart) => tried && problems.some((problem) => problem.field === name);
  return (
    <form className="add-fields" onSubmit={add} noValidate>
      <label className="field add-title">
        <span>Title</span>
        <input value={fields.title} onChange={set('title')} aria-invalid={isWrong('title')} />
      </label>
      <label className="field">
        <span>By</span>
        <input value={fields.by} onChange={set('by')} />
      </label>
      <label className="field">
        <span>Concert key</span>
        <input
          value={fields.key}
          onChange={set('key')}
          aria-invalid={isWrong('key')}
          placeholder="Eb blues"
          autoCapitalize="off"
        />
      </label>
      <label className="field">
        <span>Time</span>
        <input
          value={fields.time}
          onChange={set('time')}
          aria-invalid={isWrong('time')}
          placeholder="5/4 (3+2)"
        />
      </label>
      <label className="field">
        <span>Tempo</span>
        <input
          value={fields.tempo}
          onChange={set('tempo')}
          aria-invalid={isWrong('tempo')}
          inputMode="numeric"
        />
      </label>
      <label className="field">
        <span>Bars to begin with</span>
        <select
          value={fields.bars}
          onChange={(event) => setFields({ ...fields, bars: Number(event.target.value) })}
        >
          {[4, 8, 12, 16, 24, 32].map((bars) => (
            <option key={bars} value={bars}>
              {bars}
            </option>
          ))}
        </select>
      </label>
      <div className="add-foot">
        {tried &&
          problems.map((problem) => (
            <p key={problem.field} className="field-problem" role="alert">
              {problem.words}
            </p>
          ))}
        <button type="submit" className="button-primary">
          Add and write the bars
        </button>
      </div>
    </form>
  );
};

/** The text that is being pasted outlives the page: nothing typed is lost. */
const useDraft = (name: string) => {
  const { tabletStore } = useServices();
  const [text, setText] = useState(() => {
    const kept = readJson(tabletStore, name);
    return typeof kept === 'string' ? kept : '';
  });
  useEffect(() => {
    if (text === '') tabletStore.removeItem(name);
    else writeJson(tabletStore, name, text);
  }, [tabletStore, name, text]);
  return [text, setText] as const;
};

const summary = (bars: number, sections: number): string =>
  `${bars === 1 ? 'One bar' : `${bars} bars`} in ${sections === 1 ? 'one section' : `${sections} sections`}`;

const PastedChart = () => {
  const board = useOpenBoard();
  const { makeId } = useServices();
  const [text, setText] = useDraft(`tillcue.draft.${board.band}`);
  const [words, setWords] = useState('');
  const area = useRef<HTMLTextAreaElement>(null);
  const settled = useDeferredValue(text);
  const { chart, problems } = useMemo(() => {
    const read = readChart(settled);
    return {
      chart: read.chart,
      problems: [...read.problems, ...withRoadLines(settled, read.chart, unroll(read.chart).problems)],
    };
  }, [settled]);
  const bars = chart.sections.reduce((sum, section) => sum + section.bars.length, 0);

  const goToProblem = ({ line = 1, column = 1 }: Problem) => {
    const at = placeInText(text, line, column);
    area.current?.focus();
    area.current?.setSelectionRange(at, at + 1);
  };
  const add = (event: FormEvent) => {
    event.preventDefault();
    const read = readChart(text, makeId).chart;
    if (text.trim() === '') return setWords('Paste or type a chart first.');
    const head = read.head.title ? read.head : { ...read.head, title: 'Without a title' };
    const id = putChart(board, { ...read, head }, makeId);
    setText('');
    goTo(pencilHref(board.band, id), 'instead');
  };
  return (
    <form className="add-text" onSubmit={add} noValidate>
      <label className="field">
        <span>The chart as text: a header, sections in brackets, bars between bar lines</span>
        <textarea
          ref={area}
          className="chart-text"
          value={text}
          onChange={(event) => setText(event.target.value)}
          placeholder={EXAMPLE}
          rows={18}
          spellCheck={false}
          autoCapitalize="off"
          autoCorrect="off"
          wrap="off"
        />
      </label>
      <div className="add-report">
        {settled.trim() !== '' && (
          <p role="status">
            <strong>{summary(bars, chart.sections.length)}</strong>
            <span className="dim">
              {problems.length === 0
                ? ', all of it understood.'
                : problems.length === 1
                  ? ', one thing to look at. It can be added as it is; nothing is thrown away.'
                  : `, ${problems.length} things to look at. It can be added as it is; nothing is thrown away.`}
            </span>
          </p>
        )}
        {settled.trim() !== '' && <ProblemList problems={problems} onGo={goToProblem} />}
        <p className="field-problem" role="alert">
          {words}
        </p>
        <button type="submit" className="button-primary">
          {problems.length > 0 && text.trim() !== '' ? 'Add it as it is' : 'Add it'}
        </button>
      </div>
    </form>
  );
};

/** A new chart: begun with empty bars, or pasted as text. */
export const AddChart = () => {
  const { band, role, leading } = useOpenBoard();
  const locked = useObservable(leading).locked === true;
  const [way, setWay] = useState<'empty' | 'text'>('empty');
  // Held here, so that a look at the other way loses nothing.
  const [fields, setFields] = useState(BLANK);
  return (
    <main className="page scrolled add">
      <header className="book-head">
        <h1>Add a chart</h1>
        <a className="button" href={bandHref(band, 'book')}>
          Back to the book
        </a>
      </header>
      {mayWrite(role, 'book') ? (
        // Disabled while the book is locked, not taken away: what was typed stays.
        <fieldset className="add-writes" disabled={locked}>
          <LockedStrip />
          <fieldset className="button-row add-ways">
            <legend className="visually-hidden">How</legend>
            <button
              type="button"
              className="button"
              aria-pressed={way === 'empty'}
              onClick={() => setWay('empty')}
            >
              Empty bars
            </button>
            <button
              type="button"
              className="button"
              aria-pressed={way === 'text'}
              onClick={() => setWay('text')}
            >
              Chart text
            </button>
          </fieldset>
          {way === 'empty' ? <EmptyChart fields={fields} onFields={setFields} /> : <PastedChart />}
        </fieldset>
      ) : (
        <p>Your link lets you read. Ask the leader for a player’s link to write charts.</p>
      )}
    </main>
  );
};
