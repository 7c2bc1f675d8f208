import type { Cue, Take } from '../../common/stage/cue.ts';
import { locate } from '../../common/stage/locate.ts';
import { type Performance, perform } from '../../common/stage/perform.ts';
import { barsAround } from '../../common/stage/upcoming.ts';
import { callAlone } from '../stand/call-alone.ts';
import { makeId } from '../state/make-id.ts';

/** More open legs than these no tune has. */
const MOST_CALLS = 60;
const BARS_A_LOOK = 400;
/** So long a chord is held that is written to be held, ms. */
const HELD_MS = 4000;
/** A bar lasts no longer, ms. */
const LONGEST_BAR_MS = 600_000;
/** After the bar line at which an open leg begins, ms. */
const JUST_AFTER_MS = 1;

export interface WholeTake {
  readonly performance: Performance;
  /** The first count is at 0. */
  readonly endMs: number;
}

/**
 * A tune from its count-in to its end as nobody has called it: open legs are played once, vamps left as soon as they can be,
 * and what is held is held for four seconds.
 * Null where its road has no end.
 */
export const wholeTake = ({ id, chart, title, road, semitones }: Take): WholeTake | null => {
  const plain = { id, chart, title, road, ...(semitones === undefined ? {} : { semitones }), cues: [] };
  let state: { take: Take; performance: Performance } = { take: plain, performance: perform(plain) };
  const call = (cue: Cue, atMs: number): boolean => {
    const then = callAlone(state, cue, atMs, makeId);
    if ('words' in then) return false;
    state = { take: then.take, performance: perform(then.take, state.performance) };
    return true;
  };
  if (!call({ kind: 'start' }, 0)) return null;
  let fromMs = 0;
  const called = new Set<string>();
  for (let calls = 0; calls < MOST_CALLS; calls += 1) {
    // What comes after a hold that is not released yet has no time.
    const coming = barsAround(state.performance, fromMs, 0, BARS_A_LOOK).bars;
    const bars = coming.filter(({ startMs }) => Number.isFinite(startMs));
    const open = bars.find(({ passes, leg }) => typeof passes !== 'number' && !called.has(leg.id));
    if (open === undefined) {
      const last = bars.at(-1);
      if (last === undefined) return null;
      if (coming.length < BARS_A_LOOK || bars.length < coming.length) {
        const then = locate(state.performance, last.startMs + LONGEST_BAR_MS);
        if (then.state === 'ended') return { performance: state.performance, endMs: then.atMs };
        if (then.state !== 'held' || !call({ kind: 'release' }, then.sinceMs + HELD_MS)) return null;
      } else fromMs = last.startMs;
      continue;
    }
    called.add(open.leg.id);
    fromMs = open.startMs + JUST_AFTER_MS;
    if (!call({ kind: open.passes === 'vamp' ? 'goOn' : 'lastChorus' }, fromMs)) return null;
  }
  return null;
};
