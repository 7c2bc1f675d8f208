import { SIGN_PATHS, signFor } from './sign-path.ts';
import './spelled-text.css';

const WORD = /(\S*[♭♯𝄫𝄪]\S*)/u;
const SIGN = /([♭♯𝄫𝄪])/u;

/** Words with note names in them, 'E♭ blues, for tenor sax in F': the accidentals are drawn in the weight of the words. */
export const SpelledText = ({ text }: { text: string }) =>
  text.split(WORD).map((part, index) =>
    index % 2 === 0 ? (
      part
    ) : (
      // biome-ignore lint/suspicious/noArrayIndexKey: the parts of one text have no other name
      <span key={index} className="spelled-word">
        <SpelledWord word={part} />
      </span>
    ),
  );

/** A note's name and its sign are never on two lines. */
const SpelledWord = ({ word }: { word: string }) =>
  word.split(SIGN).map((part, index) => {
    const sign = signFor(part);
    if (sign === null) return part;
    const { widthEm, fill } = SIGN_PATHS[sign];
    return (
      // biome-ignore lint/suspicious/noArrayIndexKey: see above
      <span key={index} className="spelled-sign">
        <span className="visually-hidden">{part}</span>
        <svg
          viewBox={`0 -78 ${widthEm * 100} 86`}
          style={{ width: `${widthEm * 0.88}em` }}
          aria-hidden="true"
        >
          <path d={fill} />
        </svg>
      </span>
    );
  });
