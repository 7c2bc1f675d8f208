import type { BarMusic } from '../../../common/chart/bar-music.ts';
import type { Leg, RoadBar } from '../../../common/form/road.ts';
import type { ComingBar } from '../../../common/stage/place.ts';

const MUSIC: BarMusic = {
  metre: { text: '4/4', upper: 4, lower: 4, pulses: 4, groups: [4], compound: false },
  pulses: 4,
  pickUp: false,
  cells: [{ kind: 'chord', symbol: 'F7', atPulse: 0, lengthPulses: 4, pushed: false, carried: false }],
  words: [],
  key: '',
};

/** Bars of a leg; the writer's lines end after the bars whose index stands in `lineEnds`. */
export const legBars = (count: number, lineEnds: readonly number[], letters: Record<number, string> = {}) =>
  Array.from({ length: count }, (_, at): RoadBar => {
    const letter = letters[at];
    return {
      id: `b${at + 1}`,
      pulses: 4,
      phraseEnd: lineEnds.includes(at),
      marks: [],
      content: {
        written: at + 1,
        music: MUSIC,
        lineEnd: lineEnds.includes(at),
        ...(letter === undefined ? {} : { letter }),
      },
    };
  });

export const leg = (
  id: string,
  name: string,
  passes: Leg['passes'],
  bars: Leg['bars'],
  more: Partial<Leg> = {},
): Leg => ({
  id,
  name,
  passes,
  bars,
  ...more,
});

/** The bars played when these passes follow each other; `from` starts the first of them later. */
export const played = (passes: readonly { leg: Leg; pass: number; from?: number }[]): ComingBar[] => {
  let index = 0;
  return passes.flatMap(({ leg: of, pass, from = 0 }) =>
    of.bars.slice(from).map((bar, at): ComingBar => {
      const place = { leg: of.id, pass, barIndex: from + at, pulse: 0 };
      return {
        index,
        startMs: index++ * 2000,
        place,
        bar,
        leg: of,
        passes: of.passes,
        passBars: of.bars.length,
        lands: [],
      };
    }),
  );
};
