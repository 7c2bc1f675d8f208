import type { Leg } from '../form/road.ts';
import type { Manner, Trading, Turns } from './manner.ts';
import type { ComingBar } from './place.ts';
import type { Spot } from './spot.ts';

const DRUMS = 'drums';
/** Whoever solos, where nobody is named. */
const SOLOIST = 'soloist';

/** The leg as its line of the road map has it: traded or not. */
const asWritten = ({ id, trade }: Leg): Trading => ({
  leg: id,
  written: trade,
  turns: trade === undefined ? null : { bars: Math.max(1, Math.floor(trade) || 1), players: null, before: 0 },
});

/** How many turns a pass of so many bars has; the last one may be cut short. */
const turnsIn = (passBars: number, { bars }: Turns): number => Math.ceil(passBars / bars);

/**
 * Whether the leg is traded where a bar of it begins: another leg is traded as its line says, and where the top has
 * gone by, the players rotate on from the last turn of the pass before.
 */
export const tradingIn = (
  trading: Trading | null,
  { leg, pass, barIndex }: Spot,
  before: ComingBar | null,
): Trading => {
  if (!trading || trading.leg !== leg.id || trading.written !== leg.trade) return asWritten(leg);
  const { turns } = trading;
  const topGoesBy = before?.place.leg === leg.id && before.place.pass === pass - 1 && barIndex === 0;
  if (!turns || !topGoesBy) return trading;
  return { ...trading, turns: { ...turns, before: turns.before + turnsIn(before.passBars, turns) } };
};

/** Who trades: who was named, else the solo order with the drums between, else whoever solos and the drums. */
const tradersOf = ({ players }: Turns, { solo }: Manner): readonly string[] => {
  if (players) return players;
  const order = solo?.order ?? [];
  const others = order.filter((player) => player.toLowerCase() !== DRUMS);
  if (others.length === 0) return [SOLOIST, DRUMS];
  return others.length < order.length ? order : order.flatMap((player) => [player, DRUMS]);
};

/**
 * Whose turn a bar is, counted from the top of its pass. `isLast`: nobody trades after this pass.
 * @example fours over ten bars, a and b: a a a a b b b b a a, and the next pass begins with b
 */
export const turnOf = (
  manner: Manner,
  barIndex: number,
  passBars: number,
  isLast: boolean,
): ComingBar['turn'] => {
  const turns = manner.trading?.turns;
  if (!turns || barIndex < 0) return undefined;
  const players = tradersOf(turns, manner);
  const turn = Math.floor(barIndex / turns.bars);
  const end = Math.min(passBars, (turn + 1) * turns.bars);
  const playerAt = (i: number) => players[(turns.before + i) % players.length] ?? '';
  const next = isLast && end === passBars ? '' : playerAt(turn + 1);
  return { now: playerAt(turn), next, barsLeft: end - barIndex - 1 };
};

const NAMES: Readonly<Record<number, string>> = { 1: 'ones', 2: 'twos', 4: 'fours', 8: 'eights' };

/** How long a turn is: "fours", "3 bars each". */
export const tradeWords = (bars: number): string => NAMES[bars] ?? `${bars} bars each`;

/** "Trade fours". */
export const tradeName = (bars: number): string => `Trade ${tradeWords(bars)}`;

/** How the turns fall where the form does not divide: "4 + 4 + 2"; '' where it does, or is too long to tell. */
export const turnsWords = (bars: number, passBars: number): string => {
  const rest = passBars % bars;
  const whole = (passBars - rest) / bars;
  if (rest === 0 || whole > 8) return '';
  return [...Array.from({ length: whole }, () => bars), rest].join(' + ');
};
