import { type FormEvent, useState } from 'react';
import { withoutControls } from '../../common/chart/without-controls.ts';
import { LIMITS } from '../../common/protocol/limits.ts';
import { renameBand } from '../net/relay-api.ts';
import { useBoard } from '../state/board-context.tsx';
import { useObservable } from '../state/observable.ts';
import { useServices } from './services.ts';

/** The band's name; the leader changes it in place. */
export const BandName = () => {
  const board = useBoard();
  const { ask, bands } = useServices();
  const book = useObservable(board.book);
  const known = useObservable(bands).find((one) => one.band === board.band);
  const name = book.name || known?.name || 'The band';
  const [typed, setTyped] = useState<string | null>(null);
  const [words, setWords] = useState('');
  const rename = async (event: FormEvent) => {
    event.preventDefault();
    const wanted = (typed ?? '').trim();
    const access = bands.keyFor(board.band);
    if (wanted === '' || wanted === name || !access) return setTyped(null);
    const reply = await renameBand(ask, board.band, access.key, wanted);
    if (!reply.ok) return setWords(reply.error.words);
    bands.rename(board.band, wanted);
    setWords('');
    setTyped(null);
  };
  if (typed === null) {
    return (
      <div className="band-name">
        <h1>{name}</h1>
        {board.role === 'leader' && (
          <button type="button" className="button-quiet dim" onClick={() => setTyped(name)}>
            rename
          </button>
        )}
      </div>
    );
  }
  return (
    <form className="one-line" onSubmit={rename}>
      <label className="field">
        <span>The band’s name</span>
        <input
          value={typed}
          onChange={(event) => setTyped(withoutControls(event.target.value))}
          maxLength={LIMITS.bandNameLength}
          // biome-ignore lint/a11y/noAutofocus: the person has just asked to type here
          autoFocus
          onKeyDown={(event) => event.key === 'Escape' && setTyped(null)}
        />
      </label>
      <button type="submit" className="button">
        Rename
      </button>
      <button type="button" className="button-quiet" onClick={() => setTyped(null)}>
        Leave it
      </button>
      <p className="field-problem" role="alert">
        {words}
      </p>
    </form>
  );
};
