import { Fragment } from 'react';
import { SpelledText } from '../engraving/spelled-text.tsx';
import type { Understood } from './understood.ts';

/** A note name with its signs: `Bb` is drawn as B flat. */
const spelled = (text: string): string => text.replaceAll('b', '♭').replaceAll('#', '♯');

/** Below the line: how the bar is understood, or what would be right. */
export const UnderstoodLine = ({
  understood,
  onSuggestion,
}: {
  readonly understood: Understood;
  readonly onSuggestion: (text: string) => void;
}) => (
  <div className="understood" role="status">
    <p>
      {understood.parts.map((part, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: parts have no names of their own
        <Fragment key={at}>
          {at > 0 && ', '}
          {part.beats} {part.name}{' '}
          {part.tones.length > 0 && (
            <b>
              <SpelledText text={part.tones.map(spelled).join(' ')} />
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
            // The field must not be left, or the bar would be written first.
            onPointerDown={(event) => event.preventDefault()}
            onClick={() => onSuggestion(problem.mended ?? '')}
          >
            {problem.suggestion}
          </button>
        )}
      </p>
    ))}
  </div>
);
