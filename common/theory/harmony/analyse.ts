import type { ChordSymbol } from '../chord-symbol.ts';
import { type Key, makeKey } from '../key.ts';
import type { NoteNames } from '../note-name.ts';
import { pitchClassOf } from '../pitch.ts';
import { isBluesOn } from './blues-key.ts';
import { namedCore } from './chord-core.ts';
import { type Heard, hearKeys } from './key-areas.ts';
import { type Progression, progressionOf } from './progression.ts';
import { reasonOf } from './reason.ts';
import type { Sense } from './sense.ts';

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
export interface ChordAnalysis extends Sense {
  /** Why, in few plain words: `dominant of Gm7`. */
  readonly reason: string;
  /** The key in which it is heard: the written one, or that of a stretch away from it. */
  readonly key: Key;
  /** It is heard in another key than the written one. */
  readonly isAway: boolean;
  /** Where it is drawn to, if that chord comes; an index beyond the end of the list is the top again. */
  readonly leadsTo: { readonly index: number; readonly by: 'fifth' | 'semitone' | 'step' } | null;
}

/**
 * What each chord of a progression does: numeral, reason and key. A chord's neighbours decide, so what follows the
 * last one is given too.
 *
 * Law: the same chords in another key have the same numerals and jobs.
 * @param then what sounds after the last chord: the top again, or the next leg; its first four chords are enough
 * @param names how whoever reads the reasons calls notes
 */
export function analyse(
  chords: readonly TimedChord[],
  then: readonly TimedChord[] = [],
  names: NoteNames = 'english',
): ChordAnalysis[] {
  const all = [...chords, ...then];
  const symbols = all.map(({ symbol }) => symbol);
  const progression = progressionOf(symbols);
  const bars = all.map((chord) => chord.bars);
  const heard = hearKeys(
    progression,
    withBlues(all, progression, bars),
    bars,
    symbols.map(({ root }) => root),
  );
  return chords.map((_, i) => analysisOf(heard[i] as Heard, i, symbols, progression, names));
}

/** The written keys; a major one whose I and IV are mostly dominant sevenths is a blues. */
function withBlues(chords: readonly TimedChord[], { cores }: Progression, bars: readonly number[]): Key[] {
  const heardAs = new Map<Key, Key>();
  return chords.map(({ key }) => {
    const known = heardAs.get(key);
    if (known) return known;
    const isBlues = key.mode === 'major' && isBluesOn(pitchClassOf(key.tonic), cores, bars);
    const heard = isBlues ? makeKey(key.tonic, 'blues') : key;
    heardAs.set(key, heard);
    return heard;
  });
}

function analysisOf(
  { frame, sense, isAway }: Heard,
  index: number,
  symbols: readonly ChordSymbol[],
  { cores, neighbours }: Progression,
  names: NoteNames,
): ChordAnalysis {
  const [core, at] = [cores[index], neighbours[index]];
  if (!core || !at) throw new Error(`no chord at ${index} of ${cores.length}`);
  const near = {
    before: symbols[at.before] ?? null,
    next: symbols[at.next] ?? null,
    later: symbols[at.later] ?? null,
    names,
  };
  const reason = reasonOf(frame, sense, namedCore(core, sense.numeral), near);
  return { ...sense, reason, key: frame.key, isAway, leadsTo: leadsTo(sense, at) };
}

function leadsTo({ goal, job }: Sense, at: Progression['neighbours'][number]): ChordAnalysis['leadsTo'] {
  if (goal === undefined || goal.by === 'same' || job === 'related ii') return null;
  const isNext = goal.comes === 'next' || goal.comes === 'replaced';
  const index = isNext ? at.next : goal.comes === 'later' ? at.later : -1;
  return index < 0 ? null : { index, by: goal.comes === 'replaced' ? 'semitone' : goal.by };
}
