import { column, type Face, face, type KeyMatter, type PodiumKey } from './podium-key.ts';

/** @example inWords(['Bea', 'Tomas', 'drums']) // 'Bea, Tomas and drums' */
export const inWords = (names: readonly string[]): string =>
  names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;

/** The screen "Solos": who is next, and trading. */
export const soloKeys = ({ traders }: KeyMatter): readonly PodiumKey[] => {
  const trade = (name: string, bars: number): Face =>
    face(
      'move',
      name,
      inWords(traders),
      traders.length < 2 ? 'Choose who trades first.' : { kind: 'trade', bars, players: traders },
    );
  return column('solos', 'chorus', {
    nextSoloist: [face('move', 'Next soloist', 'at the top', { kind: 'nextSoloist' })],
    tradeTwos: [trade('Trade twos', 2)],
    tradeFours: [trade('Trade fours', 4)],
    tradeEights: [trade('Trade eights', 8)],
  });
};
