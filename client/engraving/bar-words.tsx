import type { Mark, Word } from '../../common/chart/bar-music.ts';

const FAMILIES: Partial<Record<Mark['kind'], string>> = {
  break: 'out',
  stopTime: 'out',
  hits: 'out',
  hold: 'out',
  onCue: 'out',
  tacet: 'out',
  segno: 'move',
  toCoda: 'move',
  tempo: 'feel',
  rit: 'feel',
  accel: 'feel',
  aTempo: 'feel',
  feel: 'feel',
  dynamic: 'feel',
  metre: 'feel',
};

const ordinal = (n: number): string => {
  const tens = n % 100;
  const ending = tens >= 11 && tens <= 13 ? 'th' : (['th', 'st', 'nd', 'rd'][n % 10] ?? 'th');
  return `${n}${ending}`;
};

/** 'head: ', '2nd x: ', 'last x: ', or ''. */
const reachWords = ({ reach }: Word): string => {
  if (reach === undefined) return '';
  if ('leg' in reach) return `${reach.leg}: `;
  return 'only' in reach ? `${ordinal(reach.only)} x: ` : 'last x: ';
};

/** A key that is written stands there in concert: its tonic is read as a chord's root is. */
const wordText = ({ text, mark }: Word, read: (symbol: string) => string): string =>
  mark?.kind === 'key' ? `key ${mark.key.replace(/^[A-G][b#♭♯]?/, (tonic) => read(tonic))}` : text;

const same = (a: string, b: string) => a.trim().toLowerCase() === b.trim().toLowerCase();

/**
 * The writer's words over a bar.
 * @param leg shows only what applies in this leg, without saying so; left out: everything, with its reach
 * @param read a chord symbol as this reader reads it
 * @param quiet leaves out "break", where the bar says already that the band is out
 */
export const BarWords = ({
  words,
  read,
  leg,
  quiet,
}: {
  words: readonly Word[];
  read: (symbol: string) => string;
  leg: string | undefined;
  quiet: boolean;
}) => {
  const shown = words.filter((word) => {
    if (quiet && word.mark?.kind === 'break') return false;
    const reach = word.reach;
    return !(leg !== undefined && reach !== undefined && 'leg' in reach && !same(reach.leg, leg));
  });
  if (shown.length === 0) return null;
  return (
    <span className="bar-words">
      {shown.map((word) => {
        const reach =
          leg !== undefined && word.reach !== undefined && 'leg' in word.reach ? '' : reachWords(word);
        return (
          <span key={`${word.atPulse} ${word.text}`} data-family={word.mark && FAMILIES[word.mark.kind]}>
            {reach}
            {wordText(word, read)}
          </span>
        );
      })}
    </span>
  );
};
