import type { Cue } from '../../../common/stage/cue.ts';
import { roadAt } from '../../../common/stage/in-force.ts';
import { locate } from '../../../common/stage/locate.ts';
import type { Performance } from '../../../common/stage/perform.ts';

/**
 * A cue that a leader might call now: most of them make sense, some do not and will be refused. Null where none
 * came to mind.
 */
export const randomCue = (
  performance: Performance,
  nowMs: number,
  players: readonly string[],
  random: () => number,
): Cue | null => {
  const upTo = (count: number) => Math.floor(random() * count);
  const one = <Item>(items: readonly Item[]): Item => items[upTo(items.length)] as Item;
  const { legs } = roadAt(performance, nowMs);
  const where = locate(performance, nowMs);
  const here = 'place' in where ? legs.find(({ id }) => id === where.place.leg) : undefined;
  const target = () => {
    const leg = one(legs);
    return { leg: leg.id, barIndex: upTo(leg.bars.length) };
  };
  const loop = (): Cue | null =>
    here === undefined
      ? null
      : {
          kind: 'loop',
          leg: here.id,
          from: upTo(here.bars.length),
          to: here.bars.length - 1,
          countIn: random() < 0.3,
        };
  const some = () => [...players].sort(() => random() - 0.5).slice(0, 2 + upTo(2));
  const makes: readonly (readonly [times: number, make: () => Cue | null])[] = [
    [6, () => ({ kind: 'lastChorus' })],
    [4, () => ({ kind: 'oneMore' })],
    [3, () => ({ kind: 'goOn' })],
    [3, () => ({ kind: 'tag', bars: 1 + upTo(4), times: 2 + upTo(2) })],
    [5, () => ({ kind: 'break', bars: 1 + upTo(3), at: one(['phrase', 'pass', 'lastBars'] as const) })],
    [3, () => ({ kind: one(['stopTime', 'stopTimeOff'] as const) })],
    [4, () => ({ kind: 'goTo', ...target() })],
    [2, () => ({ kind: 'trade', bars: one([2, 4]), players: some() })],
    [2, () => ({ kind: 'soloOrder', players: some() })],
    [3, () => ({ kind: 'nextSoloist' })],
    [3, () => ({ kind: one(['up', 'down'] as const), semitones: 1 + upTo(3) })],
    [2, () => ({ kind: 'feel', feel: one(['half', 'double', 'as written'] as const) })],
    [2, () => ({ kind: 'dynamic', dynamic: one(['down', 'build', 'as written'] as const) })],
    [
      5,
      () => ({ kind: 'tempo', bpm: 250 + upTo(150), ...(random() < 0.4 ? { overBars: 1 + upTo(3) } : {}) }),
    ],
    [3, () => ({ kind: 'hold' })],
    [3, () => loop()],
    [4, () => ({ kind: 'loopOff' })],
    [2, () => ({ kind: 'here', ...target(), pressedAtMs: nowMs - upTo(150) })],
    [6, () => ({ kind: 'tap', tappedAtMs: nowMs })],
  ];
  let at = upTo(makes.reduce((sum, [times]) => sum + times, 0));
  for (const [times, make] of makes) {
    at -= times;
    if (at < 0) return make();
  }
  return null;
};
