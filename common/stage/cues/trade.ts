import { changeManner } from '../change-manner.ts';
import type { Cue } from '../cue.ts';
import { type CueRule, refusal } from '../cue-rule.ts';
import { soloOver } from '../solo.ts';
import type { Spot } from '../spot.ts';
import { tradeName, turnsWords } from '../trading.ts';
import { refusePlayers } from './players.ts';

type Trade = Extract<Cue, { kind: 'trade' }>;

const LONGEST_BARS = 999;

/** "trade": from the next top on the players take turns of so many bars, until the leg is left. */
export const trade: CueRule<Trade> = {
  family: 'move',
  while: ['rolling'],
  boundary: () => 'pass',
  turn: 'manner',
  refuseAtCall: ({ bars, players }) => {
    if (!Number.isInteger(bars) || bars < 1 || bars > LONGEST_BARS) {
      return refusal('badTrade', 'A turn lasts one bar or more.');
    }
    const refused = refusePlayers(players);
    if (refused) return refused;
    return players.length > 1
      ? null
      : refusal('onePlayer', 'It takes two to trade: name one more, or drums.');
  },
  land: (course, { bars, players }, { ms }) => {
    const { leg } = course.spot as Spot;
    const { solo } = course.manner;
    const turns = { bars, players, before: 0 };
    changeManner(
      course,
      { trading: { leg: leg.id, written: leg.trade, turns }, solo: solo && soloOver(solo) },
      ms,
    );
    return null;
  },
  tell: ({ bars, players }, { next }) => {
    const fall = next ? turnsWords(bars, next.passBars) : '';
    return { name: tradeName(bars), detail: players.join(', ') + (fall === '' ? '' : ` · ${fall}`) };
  },
};
