import { barNumbers } from '../../common/form/bar-numbers.ts';
import type { ComingBar } from '../../common/stage/place.ts';

/** Something that was called or is written and stays in force. */
export interface Fact {
  readonly kind: 'turn' | 'solo' | 'spot' | 'stopTime' | 'feel' | 'dynamic';
  readonly family: 'move' | 'out' | 'feel';
  readonly words: string;
  /** What follows, smaller: "Bea next"; '' where nothing does. */
  readonly after: string;
}

const turnFact = ({ now, next, barsLeft }: NonNullable<ComingBar['turn']>): Fact => {
  const bars = barsLeft + 1;
  const off = bars === 1 ? 'next bar' : `in ${bars} bars`;
  return { kind: 'turn', family: 'move', words: now, after: next === '' ? '' : `${next} ${off}` };
};

const spotFact = ({ from, to, round }: NonNullable<ComingBar['loop']>): Fact => ({
  kind: 'spot',
  family: 'move',
  words: barNumbers(from + 1, to + 1),
  after: `round ${round}`,
});

/** More than these are not read at a glance; stop-time and breaks stand in their bars as well. */
const MOST_FACTS = 2;

/**
 * The facts of a bar that its chords don't show, most needed first, no more than two. In a spot that is rehearsed
 * nobody solos.
 * @param nextSoloist who solos after the one who does
 * @param dynamic as called ('down', 'build') or written ('mf')
 */
export const factsOf = (bar: ComingBar, nextSoloist: string | null, dynamic: string | null): Fact[] => {
  const facts: Fact[] = [];
  if (bar.loop !== undefined) facts.push(spotFact(bar.loop));
  if (bar.turn !== undefined) facts.push(turnFact(bar.turn));
  else if (bar.soloist !== undefined && bar.loop === undefined) {
    const after = nextSoloist === null ? '' : `${nextSoloist} next`;
    facts.push({ kind: 'solo', family: 'move', words: `${bar.soloist} solos`, after });
  }
  if (bar.stopTime === true) facts.push({ kind: 'stopTime', family: 'out', words: 'stop-time', after: '' });
  if (bar.feel !== undefined) facts.push({ kind: 'feel', family: 'feel', words: bar.feel, after: '' });
  if (dynamic !== null) {
    facts.push({ kind: 'dynamic', family: 'feel', words: dynamic, after: '' });
  }
  return facts.slice(0, MOST_FACTS);
};
