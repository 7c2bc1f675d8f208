import { locate } from '../../../common/stage/locate.ts';
import type { Performance } from '../../../common/stage/perform.ts';
import { barsAround } from '../../../common/stage/upcoming.ts';
import type { VirtualTablet } from './virtual-tablet.ts';

/** What one tablet shows at an instant. Times in ms. */
export interface Look {
  readonly tablet: number;
  readonly folded: Performance;
  /** When this was. The tablets are looked at one after the other, and the machine may do something else between. */
  readonly machineMs: number;
  /** By its own clock. */
  readonly sharedMs: number;
  readonly errorMs: number | null;
  readonly place: string;
  /** When it changed to the bar that it shows, in machine time; null where it plays none. */
  readonly changedAtMs: number | null;
  /** Since the bar line before, and to the one after. */
  readonly sinceMs: number;
  readonly toNextMs: number;
}

/** Clocks of tablets differ by less. */
const MOST_APART_MS = 30;

export const placeName = (folded: Performance, atMs: number): string => {
  const where = locate(folded, atMs);
  if (where.state !== 'playing' && where.state !== 'held') return where.state;
  const { leg, pass, barIndex } = where.place;
  return `${where.state} ${leg} pass ${pass} bar ${barIndex + 1}`;
};

export const lookAt = ({ board }: VirtualTablet, tablet: number): Look => {
  const machineMs = performance.now();
  const sharedMs = Number(board.sharedNow());
  const { performance: folded } = board.stage.get();
  if (folded === null) throw new Error(`tablet ${tablet} has no take`);
  const { bars, now } = barsAround(folded, sharedMs, 0, 1);
  const startMs = bars[now]?.startMs;
  return {
    tablet,
    folded,
    machineMs,
    sharedMs,
    errorMs: board.clock.get().errorMs,
    place: placeName(folded, sharedMs),
    changedAtMs: startMs === undefined ? null : machineMs - (sharedMs - startMs),
    sinceMs: startMs === undefined ? 0 : sharedMs - startMs,
    toNextMs: (bars[now + 1]?.startMs ?? Number.POSITIVE_INFINITY) - sharedMs,
  };
};

/** Each place that is shown, with the tablets that show it, their clocks and how many cues they know. */
const listed = (looks: readonly Look[]): string => {
  const byPlace = new Map<string, string[]>();
  for (const { tablet, place, sharedMs, machineMs, errorMs, folded } of looks) {
    const clock = `${(sharedMs - machineMs).toFixed(1)} ± ${errorMs?.toFixed(1)} ms ahead of the machine`;
    const who = `${tablet} (${clock}, ${folded.take.cues.length} cues)`;
    byPlace.set(place, [...(byPlace.get(place) ?? []), who]);
  }
  return [...byPlace].map(([place, who]) => `${place} on ${who.join(', ')}`).join('; ');
};

/**
 * Whether all show the same place. 'late': some do not know yet what others know. 'edge': they are about to change.
 * @throws where they know the same and differ all the same
 */
export const agreement = (looks: readonly Look[]): 'same' | 'late' | 'edge' => {
  const [first] = looks;
  if (!first || looks.every(({ place }) => place === first.place)) return 'same';
  if (looks.some(({ folded }) => folded.take.cues.length !== first.folded.take.cues.length)) return 'late';
  const atOnce = looks.map((look) => ({ ...look, place: placeName(look.folded, first.sharedMs) }));
  if (atOnce.some(({ place }) => place !== atOnce[0]?.place)) {
    throw new Error(`the same cues, but not the same place: ${listed(atOnce)}`);
  }
  const ahead = looks.map(({ sharedMs, machineMs }) => sharedMs - machineMs);
  if (Math.max(...ahead) - Math.min(...ahead) > MOST_APART_MS) {
    throw new Error(`the clocks are too far apart: ${listed(looks)}`);
  }
  return 'edge';
};

/** @throws where what was seen is not what the whole take says; what somebody could not know yet does not count */
export const checkAgainst = (whole: Performance, looks: readonly Look[]): void => {
  const { cues } = whole.take;
  const wrong = looks.find(({ folded, sharedMs, place }) => {
    const known = folded.take.cues.length;
    const missed = cues.some(({ calledAtMs }, nth) => nth >= known && calledAtMs <= sharedMs);
    return !missed && place !== placeName(whole, sharedMs);
  });
  if (!wrong) return;
  throw new Error(`seen: ${listed([wrong])}; the take says ${placeName(whole, wrong.sharedMs)}`);
};
