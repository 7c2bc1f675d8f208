import { useState } from 'react';
import type { ChartEntry } from '../../common/document/book-document.ts';
import type { Cue } from '../../common/stage/cue.ts';
import { readKey } from '../../common/theory/key.ts';
import { keyName, type NoteNames } from '../../common/theory/note-name.ts';
import { useNoteNames } from '../engraving/note-names.ts';
import { SpelledText } from '../engraving/spelled-text.tsx';
import { TempoMark } from '../engraving/tempo-mark.tsx';
import './tune-list.css';

const keyWords = (text: string, names: NoteNames): string => {
  const key = readKey(text);
  return key === null ? text : keyName(key, names);
};

/** The band's tunes, each one touch from being called. */
export const TuneList = ({
  charts,
  playing,
  away,
  onCall,
  onClose,
}: {
  readonly charts: readonly ChartEntry[];
  /** Chart of the tune that is on. */
  readonly playing: string | null;
  readonly away: boolean;
  readonly onCall: (cue: Cue) => void;
  readonly onClose?: () => void;
}) => {
  const names = useNoteNames();
  const [search, setSearch] = useState('');
  const wanted = search.trim().toLowerCase();
  const tunes = charts.filter(
    ({ title, deletedAtMs }) => deletedAtMs === undefined && title.toLowerCase().includes(wanted),
  );
  return (
    <div className="tunes">
      <header className="tunes-head">
        <h1>Call a tune</h1>
        <label className="field tunes-search">
          <span className="visually-hidden">Search</span>
          <input
            type="search"
            placeholder="search"
            value={search}
            onChange={(event) => setSearch(event.target.value)}
          />
        </label>
        {onClose !== undefined && (
          <button type="button" className="button" onClick={onClose}>
            back to the podium
          </button>
        )}
      </header>
      <ul className="list tunes-list">
        {tunes.map((chart) => (
          <li key={chart.id}>
            <button
              type="button"
              className="tunes-key"
              aria-disabled={away}
              onClick={() => onCall({ kind: 'callTune', chart: chart.id })}
            >
              <b>{chart.title === '' ? 'Untitled' : chart.title}</b>
              <span>
                <SpelledText text={keyWords(chart.key, names)} />
              </span>
              <span className="tunes-tempo">
                {chart.tempo > 0 && (
                  <>
                    <TempoMark isCompound={chart.isCompound} />
                    {Math.round(chart.tempo)}
                  </>
                )}
              </span>
              {chart.id === playing && <small>on now</small>}
            </button>
          </li>
        ))}
      </ul>
      {tunes.length === 0 && (
        <p className="dim tunes-none">
          {charts.length === 0 ? 'The book is empty: add a chart in the Book.' : 'No tune of that name.'}
        </p>
      )}
    </div>
  );
};
