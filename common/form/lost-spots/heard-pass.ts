import type { BarMusic, Cell } from '../../chart/bar-music.ts';
import { readChordSymbol } from '../../theory/chord-symbol.ts';
import { coreOf } from '../../theory/harmony/chord-core.ts';
import { chordName } from '../../theory/harmony/chord-name.ts';
import type { NoteNames } from '../../theory/note-name.ts';
import { type Reading, transposeSymbol } from '../../theory/transpose.ts';
import type { Leg, RoadBar } from '../road.ts';

/** A stretch of one chord through bars. Positions in bars of the pass: 4.5 is the middle of the fifth bar. */
export interface Stretch {
  /** Equal for chords that sound alike: colours don't count, the bass does. */
  readonly sound: string;
  /** As it is drawn. */
  readonly name: string;
  readonly from: number;
  readonly to: number;
}

export interface Phrase {
  readonly from: number;
  /** After its last bar. */
  readonly to: number;
}

/** A pass of a leg as it is heard by somebody who has no paper. */
export interface HeardPass {
  readonly leg: Leg;
  readonly bars: readonly RoadBar[];
  readonly music: readonly BarMusic[];
  readonly stretches: readonly Stretch[];
  readonly phrases: readonly Phrase[];
  /** What a bar sounds like: its chords and when they come. */
  readonly sounds: readonly string[];
  /** The pass is followed by itself. */
  readonly goesRound: boolean;
  /** The pass after it, or the first of the next leg; null at the end of the road. */
  readonly then: Pick<HeardPass, 'bars' | 'stretches' | 'sounds'> | null;
  /** It is a chorus: it goes round, or a leg that goes round has the same bars. */
  readonly isChorus: boolean;
  /** The number of passes is written: the melody is played, and tells where one is. */
  readonly isTold: boolean;
}

/** How whoever reads the words reads chords and keys. */
export interface Reader {
  readonly reading: Reading;
  readonly names: NoteNames;
}

type Heard = Omit<HeardPass, 'then' | 'isChorus' | 'isTold'>;

/** The passes of the legs of a road, as heard. @param musicOf what a bar means now */
export const hearPasses = (
  legs: readonly Leg[],
  musicOf: (bar: RoadBar) => BarMusic,
  reader: Reader,
): HeardPass[] => {
  const heard = legs.map((leg) => hearLeg(leg, musicOf, reader));
  const idsOf = ({ bars }: Heard): string => bars.map(({ id }) => id).join(' ');
  const choruses = new Set(heard.filter((each) => each.goesRound && each.leg.passes !== 'vamp').map(idsOf));
  return heard.map((each, i): HeardPass => {
    const isChorus = each.leg.tag === undefined && choruses.has(idsOf(each));
    const then = each.goesRound ? each : (heard[i + 1] ?? null);
    return { ...each, then, isChorus, isTold: typeof each.leg.passes === 'number' };
  });
};

const hearLeg = (leg: Leg, musicOf: (bar: RoadBar) => BarMusic, reader: Reader): Heard => {
  const music = leg.bars.map(musicOf);
  const stretches: Stretch[] = [];
  const sounds = music.map(({ cells, pulses }, bar) => {
    for (const cell of cells) addStretch(stretches, cell, bar, pulses, reader);
    return cells.map((cell) => `${cell.atPulse} ${soundOf(cell.kind, cell.symbol)}`).join(', ');
  });
  return {
    leg,
    bars: leg.bars,
    music,
    stretches,
    sounds: sounds.map((sound, i) => `${music[i]?.metre.text} ${sound}`),
    phrases: phrasesOf(leg.bars),
    goesRound: leg.passes !== 1,
  };
};

/** A rest keeps the chord before it in mind. */
const addStretch = (stretches: Stretch[], cell: Cell, bar: number, pulses: number, reader: Reader): void => {
  const [from, to] = [bar + cell.atPulse / pulses, bar + (cell.atPulse + cell.lengthPulses) / pulses];
  const last = stretches.at(-1);
  const sound = soundOf(cell.kind, cell.symbol);
  if (last && (cell.kind === 'rest' || last.sound === sound))
    stretches[stretches.length - 1] = { ...last, to };
  else if (cell.kind !== 'rest') stretches.push({ sound, name: nameOf(cell, reader), from, to });
};

const soundOf = (kind: Cell['kind'], symbol: string): string => {
  const chord = kind === 'chord' ? readChordSymbol(symbol) : null;
  if (chord === null) return kind === 'noChord' ? 'N.C.' : `${kind} ${symbol}`;
  const { root, bass, family, figure } = coreOf(chord);
  return `${root} ${family} ${figure} ${bass}`;
};

const nameOf = ({ kind, symbol }: Cell, { reading, names }: Reader): string => {
  if (kind === 'noChord') return 'N.C.';
  const chord = readChordSymbol(transposeSymbol(symbol, reading));
  return chord === null ? symbol : chordName(chord, names);
};

const phrasesOf = (bars: readonly RoadBar[]): Phrase[] => {
  const ends = bars.flatMap(({ phraseEnd }, i) => (phraseEnd || i === bars.length - 1 ? [i + 1] : []));
  return ends.map((to, i) => ({ from: ends[i - 1] ?? 0, to }));
};
