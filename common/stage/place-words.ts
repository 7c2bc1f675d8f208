import type { Leg, RoadBar } from '../form/road.ts';

/** "letter B", "Bridge"; '' where the bar carries no rehearsal letter. */
export const letterWords = (bar: RoadBar | undefined): string => {
  const letter = bar?.content.letter ?? '';
  return letter.length > 0 && letter.length <= 2 ? `letter ${letter}` : letter;
};

/** A place as a leader would say it: "the top", "Solos", "letter B", "Head out, bar 5". */
export const placeWords = (leg: Leg, barIndex: number, fromLeg: string | undefined): string => {
  const same = leg.id === fromLeg;
  if (barIndex <= 0) return same ? 'the top' : leg.name;
  const where = letterWords(leg.bars[barIndex]) || `bar ${barIndex + 1}`;
  return same ? where : `${leg.name}, ${where}`;
};
