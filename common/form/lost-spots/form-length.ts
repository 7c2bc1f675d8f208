import type { BarMusic } from '../../chart/bar-music.ts';
import { readChordSymbol } from '../../theory/chord-symbol.ts';
import { type ChordCore, coreOf } from '../../theory/harmony/chord-core.ts';
import { readKey } from '../../theory/key.ts';
import type { HeardPass } from './heard-pass.ts';
import type { Finder } from './lost-spot.ts';

const BLUES_BARS = 12;
const PHRASES = 8;

/**
 * A chorus that is longer or shorter than the hands expect: twelve bars of a blues, else the multiple of eight that is
 * nearest, of two the smaller. Four bars or fewer that go round are a figure and no form. Common practice, no source.
 */
export const formLengthSpots: Finder = (pass) => {
  const { bars, isChorus } = pass;
  if (!isChorus || PHRASES % bars.length === 0) return [];
  const isOfBlues = isBlues(pass);
  const usual = isOfBlues ? BLUES_BARS : nearestUsual(bars.length);
  if (bars.length === usual) return [];
  const isLonger = bars.length > usual;
  const expected = isOfBlues ? `where a blues usually has ${BLUES_BARS}` : 'which is no multiple of eight';
  return [
    {
      kind: 'formLength',
      fromBar: 0,
      toBar: bars.length - 1,
      atBar: isLonger ? usual : bars.length - 1,
      weight: isOfBlues ? 80 : 60,
      reason: `${bars.length} bars, ${expected}`,
      announce: isLonger
        ? `${bars.length} bars: ${usual + 1} is not the top`
        : `only ${bars.length} bars: after ${bars.length} comes the top`,
    },
  ];
};

/** Fifteen bars are one short of sixteen, not seven more than eight. */
const nearestUsual = (bars: number): number => {
  const over = bars % PHRASES;
  return Math.max(PHRASES, over > PHRASES / 2 ? bars + PHRASES - over : bars - over);
};

/** The key says so, it goes from I7 to IV7 in the fifth bar, or from i to iv there and has twelve bars. */
const isBlues = ({ music }: HeardPass): boolean => {
  const mode = readKey(music[0]?.key ?? '')?.mode;
  if (mode === 'blues' || mode === 'minor blues') return true;
  const [one, five] = [chordIn(music[0]), chordIn(music[4])];
  if (!one || !five || (one.root + 5) % 12 !== five.root) return false;
  return music.length === BLUES_BARS || (one.family === 'dominant' && five.family === 'dominant');
};

const chordIn = (music: BarMusic | undefined): ChordCore | null => {
  const cell = music?.cells.find(({ kind }) => kind === 'chord');
  const symbol = cell ? readChordSymbol(cell.symbol) : null;
  return symbol ? coreOf(symbol) : null;
};
