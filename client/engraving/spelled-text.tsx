import { SIGN_PATHS, signFor } from './sign-path.ts';
import './spelled-text.css';

/** Words with note names in them, 'E♭ blues, for tenor sax in F': the accidentals are drawn in the weight of the words. */
export const SpelledText = ({ text }: { text: string }) => (
  <>
    {text.split(/([♭♯𝄫𝄪])/u).map((part, index) => {
      const sign = signFor(part);
      if (sign === null) return part;
      const { widthEm, fill } = SIGN_PATHS[sign];
      return (
        // biome-ignore lint/suspicious/noArrayIndexKey: the parts of one text have no other name
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
    })}
  </>
);
