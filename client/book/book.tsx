import './book.css';
import { useEffect, useMemo, useState } from 'react';
import type { ChartEntry } from '../../common/document/book-document.ts';
import { deleteChart, restoreChart } from '../../common/document/edit-book.ts';
import { mayLead, mayWrite } from '../../common/protocol/roles.ts';
import type { Cue } from '../../common/stage/cue.ts';
import { BandName } from '../app/band-name.tsx';
import { bandHref, START_HREF } from '../app/route.ts';
import { useServices } from '../app/services.ts';
import { useOpenBoard } from '../app/use-open-board.ts';
import { derive } from '../state/derive.ts';
import { useObservable } from '../state/observable.ts';
import { ChartRow } from './chart-row.tsx';
import { copyChart, copyTitle } from './copy-chart.ts';
import { filterCharts, putAway } from './filter-charts.ts';
import { keyForReader } from './key-for-reader.ts';
import { LockedStrip } from './locked-strip.tsx';
import { PeopleList } from './people-list.tsx';

/** What the strip over the list says last. */
type Said =
  | { readonly kind: 'deleted'; readonly entry: ChartEntry }
  | { readonly kind: 'words'; readonly words: string };

const LINK_WORDS = {
  finding: 'Looking for the relay …',
  on: null,
  away: 'The relay is away: this is the book as this tablet last saw it. What you write is kept and goes there later.',
  closed: null,
} as const;

/** The band's book: its charts, who is here, and the ways to add, call and invite. */
export const Book = () => {
  const board = useOpenBoard();
  const { band, role, member } = board;
  const { settings, makeId } = useServices();
  const { part, concert, noteNames } = useObservable(settings);
  const book = useObservable(board.book);
  const here = useObservable(board.bookHere);
  const link = useObservable(board.link);
  const leading = useObservable(board.leading);
  const onStage = useObservable(useMemo(() => derive([board.stage], ({ take }) => take?.chart), [board]));
  const [search, setSearch] = useState('');
  const [open, setOpen] = useState<string | null>(null);
  const [said, setSaid] = useState<Said | null>(null);
  const shown = useMemo(() => filterCharts(book.charts, search), [book.charts, search]);
  const away = useMemo(() => putAway(book.charts), [book.charts]);
  const writes = mayWrite(role, 'book') && leading.locked !== true;
  const leads = mayLead(role, member, leading);
  const inBook = book.charts.length - away.length;
  const onTune = book.charts.find(({ id }) => id === onStage);

  const opened = book.charts.find(({ id }) => id === open);
  const isDeleted = (id: string) => away.some((entry) => entry.id === id);

  useEffect(() => {
    // Somebody else has deleted what one is looking at.
    if (opened?.deletedAtMs === undefined) return;
    setOpen(null);
    setSaid({ kind: 'deleted', entry: opened });
  }, [opened]);

  const say = (words: string) => setSaid({ kind: 'words', words });
  const call = async (entry: ChartEntry, cue: Cue) => {
    const answer = await board.call(cue);
    if (answer.ok) setOpen(null);
    say(answer.ok ? `${entry.title} is on every stand.` : answer.error.words);
  };
  const copy = async ({ id, title }: ChartEntry) => {
    const wanted = copyTitle(
      title,
      book.charts.map((one) => one.title),
    );
    const copied = await copyChart(board, id, wanted, makeId);
    if (copied.ok) setOpen(copied.value);
    say(copied.ok ? `${wanted} is in the book.` : copied.error);
  };
  const remove = (entry: ChartEntry) => {
    deleteChart(board.bookDoc, entry.id, board.sharedNow());
    setOpen(null);
    setSaid({ kind: 'deleted', entry });
  };
  const restore = ({ id }: ChartEntry) => {
    restoreChart(board.bookDoc, id);
    setSaid(null);
    setOpen(id);
  };

  return (
    <main className="page scrolled book">
      <header className="book-head">
        <BandName />
        <div className="button-row">
          {writes && (
            <a className="button" href={bandHref(band, 'add')}>
              Add a chart
            </a>
          )}
          <a className="button" href={bandHref(band, 'invite')}>
            Invite
          </a>
          <a className="button-quiet dim" href={START_HREF}>
            Bands
          </a>
        </div>
      </header>
      {LINK_WORDS[link.state] !== null && (
        <p className="strip" role="status">
          {LINK_WORDS[link.state]}
        </p>
      )}
      <LockedStrip />
      {onTune && (
        <p className="book-on">
          <span className="dim">On the stands</span> <strong>{onTune.title}</strong>{' '}
          <a className="button" href={bandHref(band, leads ? 'podium' : 'stand')}>
            {leads ? 'To the podium' : 'To my stand'}
          </a>
        </p>
      )}
      <div className="book-columns">
        <section className="book-charts" aria-label="Charts">
          {inBook > 0 && (
            <label className="field book-search">
              <span>Search {inBook === 1 ? 'one chart' : `${inBook} charts`}</span>
              <input
                type="search"
                value={search}
                onChange={(event) => setSearch(event.target.value)}
                autoComplete="off"
                enterKeyHint="search"
              />
            </label>
          )}
          <div role="status">
            {said?.kind === 'words' && (
              <p className="strip">
                {said.words}
                <button type="button" className="button-quiet" onClick={() => setSaid(null)}>
                  Close
                </button>
              </p>
            )}
            {said?.kind === 'deleted' && isDeleted(said.entry.id) && (
              <p className="strip">
                <span>
                  <strong>{said.entry.title}</strong> is out of the book.
                </span>
                {writes && (
                  <button type="button" className="button" onClick={() => restore(said.entry)}>
                    Put it back
                  </button>
                )}
              </p>
            )}
          </div>
          <ul className="chart-list">
            {shown.map((entry) => (
              <ChartRow
                key={entry.id}
                band={band}
                entry={entry}
                shownKey={keyForReader(entry.key, part, concert, noteNames)}
                isOn={entry.id === onStage}
                isOpen={entry.id === open}
                mayWrite={writes}
                mayCall={leads}
                onOpen={(opened) => setOpen(opened ? entry.id : null)}
                onCall={(cue) => call(entry, cue)}
                onCopy={() => copy(entry)}
                onDelete={() => remove(entry)}
              />
            ))}
          </ul>
          {!here && <p className="dim">The book is on its way …</p>}
          {here && inBook === 0 && (
            <p className="book-empty">
              {writes
                ? 'There is no chart in this book yet. Add the first one: write it bar by bar, or paste it as text.'
                : 'There is no chart in this book yet.'}
            </p>
          )}
          {inBook > 0 && shown.length === 0 && (
            <p className="book-empty">
              No chart has “{search}” in its title, writer or key.{' '}
              <button type="button" className="button" onClick={() => setSearch('')}>
                Show all
              </button>
            </p>
          )}
          {writes && away.length > 0 && (
            <details className="book-away">
              <summary>Deleted charts ({away.length})</summary>
              <ul className="list">
                {away.map((entry) => (
                  <li key={entry.id} className="list-row">
                    <span>{entry.title || 'Without a title'}</span>
                    <button type="button" className="button" onClick={() => restore(entry)}>
                      Put it back
                    </button>
                  </li>
                ))}
              </ul>
            </details>
          )}
        </section>
        <aside className="book-side">
          <h2>Here now</h2>
          <PeopleList />
        </aside>
      </div>
    </main>
  );
};
