import { Fragment, useEffect, useRef } from 'react';
import { noteName } from '../../common/theory/note-name.ts';
import { useNoteNames } from '../engraving/note-names.ts';
import { SpelledText } from '../engraving/spelled-text.tsx';
import type { Editing } from './editing.ts';
import { TypingKeys } from './typing-keys.tsx';
import type { Understood } from './understood.ts';

/** The field must not be left, or the bar would be written first. */
const stayInField = (event: { preventDefault: () => void }) => event.preventDefault();

/** Below the line: how the bar is understood, what would be right, and what somebody else wrote there meanwhile. */
export const UnderstoodLine = ({ understood, theirs, editing, onSuggestion }: UnderstoodLineProps) => {
  const names = useNoteNames();
  const line = useRef<HTMLDivElement>(null);
  useEffect(() => {
    // It must not stand below the edge while one types.
    line.current?.scrollIntoView({ block: 'nearest' });
  }, []);
  const news = useRef<HTMLParagraphElement>(null);
  const theirText = theirs?.text;
  useEffect(() => {
    if (theirText !== undefined) news.current?.scrollIntoView({ block: 'nearest' });
  }, [theirText]);
  return (
    <div className="understood" ref={line}>
      <p role="status" id="understood">
        {understood.parts.map((part, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: parts have no names of their own
          <Fragment key={at}>
            {at > 0 && ', '}
            {part.beats} {part.name}{' '}
            {part.tones.length > 0 && (
              <b>
                <SpelledText text={part.tones.map((note) => noteName(note, names)).join(' ')} />
              </b>
            )}
          </Fragment>
        ))}
        {understood.words.length > 0 && <span className="dim"> · {understood.words.join(', ')}</span>}
      </p>
      {understood.problems.map((problem) => (
        <p className="field-problem" key={`${problem.kind}${problem.words}`}>
          {problem.words}{' '}
          {problem.mended !== undefined && (
            <button
              type="button"
              className="button"
              onPointerDown={stayInField}
              onClick={() => onSuggestion(problem.mended ?? '')}
            >
              {problem.suggestion}
            </button>
          )}
        </p>
      ))}
      {theirs !== null && (
        <p className="field-problem" role="alert" ref={news}>
          {theirs.who ?? 'Somebody'} wrote {theirs.text === '' ? 'nothing' : `“${theirs.text}”`} here
          meanwhile; what you type replaces it.{' '}
          <button
            type="button"
            className="button"
            onPointerDown={stayInField}
            onClick={() => editing.takeTheirs()}
          >
            take {theirs.who === null ? 'theirs' : `${theirs.who}’s`}
          </button>
        </p>
      )}
      <TypingKeys editing={editing} />
    </div>
  );
};

interface UnderstoodLineProps {
  readonly understood: Understood;
  /** What somebody else wrote into the bar since typing began. */
  readonly theirs: { readonly text: string; readonly who: string | null } | null;
  readonly editing: Editing;
  readonly onSuggestion: (text: string) => void;
}
