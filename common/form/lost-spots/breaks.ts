import { count } from '../count.ts';
import type { Finder } from './lost-spot.ts';

/** Every written break, and where everybody comes in again. */
export const breakSpots: Finder = ({ bars, goesRound }) =>
  bars.flatMap((bar, at) =>
    bar.marks.flatMap(({ mark, pass }) => {
      if (mark.kind !== 'break') return [];
      const again = at + mark.bars;
      const isTop = again >= bars.length;
      const back = isTop ? (goesRound ? 'the top' : 'the next leg') : `${again + 1}`;
      return [
        {
          kind: 'break' as const,
          fromBar: at,
          toBar: Math.min(again, bars.length) - 1,
          atBar: at,
          ...(pass === undefined ? {} : { pass }),
          weight: Math.min(80, 50 + 10 * (mark.bars - 1) + (isTop ? 10 : 0)),
          reason: `a break of ${count(mark.bars, 'bar')} in ${at + 1}; all come in again at ${back}`,
          announce: `break in ${at + 1}, in again at ${back}`,
        },
      ];
    }),
  );
