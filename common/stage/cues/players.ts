import { refusal } from '../cue-rule.ts';
import type { Refusal } from '../refusal.ts';

const MOST_PLAYERS = 24;

/** Why these can not be names of players. */
export const refusePlayers = (players: unknown): Refusal | null => {
  const areNames =
    Array.isArray(players) &&
    players.length <= MOST_PLAYERS &&
    players.every((name) => typeof name === 'string' && name.trim() !== '');
  if (!areNames) return refusal('badPlayers', 'Players are named, 24 at most.');
  return players.length > 0 ? null : refusal('noPlayers', 'Name somebody first.');
};
