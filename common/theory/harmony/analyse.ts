import type { ChordSymbol } from '../chord-symbol.ts';
import type { Key } from '../key.ts';
import { type Heard, hearKeys } from './key-areas.ts';
import type { Numeral } from './numeral.ts';
import { type Progression, progressionOf } from './progression.ts';
import { reasonOf } from './reason.ts';
import type { Job, Sense } from './sense.ts';

/** A chord in time. */
export interface TimedSymbol {
  readonly symbol: ChordSymbol;
  /** How long it lasts, in bars. */
  readonly bars: number;
}

export interface TimedChord extends TimedSymbol {
  /** The key that is written for it. */
  readonly key: Key;
}

/** What a chord does where it stands. */
export interface ChordAnalysis {
  readonly numeral: Numeral;
  /** Another name that is as good: `ii7/V` of the vi7 before V7/V. */
  readonly also?: Numeral;
  readonly job: Job;
  /** Why, in few plain words: `dominant of Gm7`. */
  readonly reason: string;
  /** The key in which it is heard: the written one, or that of a key area. */
  readonly key: Key;
  /** It lies in a key area, away from the written key. */
  readonly isAway: boolean;
  /** Where it is drawn to, if that chord comes: its index in the list, beyond the end where it is the top again. */
  readonly leadsTo?: { readonly index: number; readonly by: 'fifth' | 'semitone' | 'step' };
  /** What the rules found, for scale choices. */
  readonly sense: Sense;
}

/**
 * What each chord of a progression does: numeral, reason and key. A chord's neighbours decide, so what follows the
 * last one is given too.
 *
 * Law: the same chords in another key have the same numerals and jobs.
 * @param then what sounds after the last chord: the top again, or the next leg; its first four chords are enough
 */
export function analyse(chords: readonly TimedChord[], then: readonly TimedChord[] = []): ChordAnalysis[] {
  const all = [...chords, ...then];
  const symbols = all.map(({ symbol }) => symbol);
  const progression = progressionOf(symbols);
  const heard = hearKeys(
    progression,
    all.map(({ key }) => key),
    all.map(({ bars }) => bars),
    symbols.map(({ root }) => root),
  );
  return chords.map((_, i) => analysisOf(heard[i] as Heard, i, symbols, progression));
}

function analysisOf(
  { frame, sense, isAway }: Heard,
  index: number,
  symbols: readonly ChordSymbol[],
  { cores, neighbours }: Progression,
): ChordAnalysis {
  const [core, at] = [cores[index], neighbours[index]];
  if (!core || !at) throw new Error(`no chord at ${index} of ${cores.length}`);
  const named = {
    before: symbols[at.before] ?? null,
    next: symbols[at.next] ?? null,
    later: symbols[at.later] ?? null,
  };
  return {
    numeral: sense.numeral,
    ...(sense.also ? { also: sense.also } : {}),
    job: sense.job,
    reason: reasonOf(frame, sense, core, named),
    key: frame.key,
    isAway,
    ...leading(sense, at),
    sense,
  };
}

function leading(
  { goal, job }: Sense,
  at: Progression['neighbours'][number],
): Pick<ChordAnalysis, 'leadsTo'> {
  if (goal === undefined || goal.by === 'same' || job === 'related ii') return {};
  const index = goal.comes === 'next' ? at.next : goal.comes === 'later' ? at.later : -1;
  return index < 0 ? {} : { leadsTo: { index, by: goal.by } };
}
