import { type FormEvent, useState } from 'react';
import type { ChartEntry } from '../../common/document/book-document.ts';
import type { Cue } from '../../common/stage/cue.ts';
import { makeKey, readKey } from '../../common/theory/key.ts';
import { keyName } from '../../common/theory/note-name.ts';
import { useNoteNames } from '../engraving/note-names.ts';
import { SpelledText } from '../engraving/spelled-text.tsx';

const TONICS = ['C', 'Db', 'D', 'Eb', 'E', 'F', 'Gb', 'G', 'Ab', 'A', 'Bb', 'B'];

/** Calls a tune as it is written, or in another key or tempo: for the singer, for the evening. */
export const CallForm = ({
  entry,
  onCall,
}: {
  readonly entry: ChartEntry;
  readonly onCall: (cue: Cue) => void;
}) => {
  const names = useNoteNames();
  const written = readKey(entry.key);
  const [key, setKey] = useState('');
  const [tempo, setTempo] = useState(String(Math.round(entry.tempo)));
  const bpm = Number(tempo);
  const tempoIsRight = Number.isFinite(bpm) && bpm >= 20 && bpm <= 400;
  const call = (event: FormEvent) => {
    event.preventDefault();
    if (!tempoIsRight) return;
    onCall({
      kind: 'callTune',
      chart: entry.id,
      ...(key === '' ? {} : { key }),
      ...(bpm === entry.tempo ? {} : { tempoBpm: bpm }),
    });
  };
  return (
    <form className="call-form" onSubmit={call} noValidate>
      {written && (
        <label className="field">
          <span>Concert key tonight</span>
          <select value={key} onChange={(event) => setKey(event.target.value)}>
            <option value="">{keyName(written, names)}, as written</option>
            {TONICS.filter((tonic) => tonic !== written.tonic).map((tonic) => {
              const name = keyName(makeKey(tonic, written.mode), names);
              return (
                <option key={tonic} value={`${tonic} ${written.mode}`}>
                  {name}
                </option>
              );
            })}
          </select>
        </label>
      )}
      <label className="field">
        <span>Tempo, 20 to 400</span>
        <input
          value={tempo}
          onChange={(event) => setTempo(event.target.value)}
          inputMode="numeric"
          aria-invalid={!tempoIsRight}
        />
      </label>
      <button type="submit" className="button-primary" disabled={!tempoIsRight}>
        Call <SpelledText text={entry.title || 'it'} />
      </button>
    </form>
  );
};
