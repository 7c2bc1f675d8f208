import type { ChordSymbol } from '../chord-symbol.ts';
import { chordPitchClasses, degreeFifths } from '../chord-tones.ts';
import type { NoteNames } from '../note-name.ts';
import { fifthsOf, noteAt, pitchClassOf, plainNoteAt } from '../pitch.ts';
import { type ScaleName, scaleNotes } from '../scale.ts';
import type { ChordAnalysis } from './analyse.ts';
import { type ChordCore, coreOf, namedCore } from './chord-core.ts';
import { type KeyFrame, keyFrame, scaleTones } from './key-frame.ts';
import { keyScale } from './key-scale.ts';
import { contains, isWithin, maskOf, semitonesUp } from './pitch-set.ts';
import { type ScaleOffer, usualScales } from './usual-scales.ts';

/** A scale to play over a chord. */
export interface ScaleChoice {
  /** The root of the chord; of a blues scale, of the key. */
  readonly tonic: string;
  readonly scale: ScaleName;
  /** From the tonic upwards. */
  readonly notes: readonly string[];
  /** Why this one, in few plain words. */
  readonly reason: string;
  /** Notes of it that should pass and not be held over the chord. */
  readonly avoid: readonly string[];
}

/**
 * Scales for a chord in its function, the likeliest first: the key's own notes with those of the chord in their
 * place, then what players choose for a chord that does this work. Each has the notes that the symbol names;
 * a dominant may lose its fifth, and a pentatonic needs only the triad. Over a blues its blues scale is always
 * among them. Empty where no scale fits: the chord's own notes remain.
 * @param names how whoever reads the reasons calls notes
 */
export function scaleChoices(
  symbol: ChordSymbol,
  analysis: ChordAnalysis,
  names: NoteNames = 'english',
): ScaleChoice[] {
  const core = namedCore(coreOf(symbol), analysis.numeral);
  const frame = keyFrame(analysis.key);
  const root = rootName(symbol, core);
  const spell = spellerOf(symbol, core, root);
  const own = keyScale(core, frame, analysis, spell, names);
  const usual = inOrderOf(core, analysis, own);
  const offered = [true, false].flatMap((hasFifth) => usual.map((offer) => ({ ...offer, hasFifth })));
  const held = maskOf(chordPitchClasses({ root: symbol.root, degrees: heldDegrees(symbol) })) | core.tones;
  const choices = new Map<ScaleName, ScaleChoice>();
  for (const { scale, why, lastResort, hasFifth } of offered) {
    if (choices.has(scale) || (lastResort === true && choices.size > 0)) continue;
    if (!fits(symbol, core, scale, hasFifth)) continue;
    const notes = spell(scale);
    const avoid = avoided(core, notes).filter((note) => !contains(held, pitchClassOf(note)));
    if (avoid.length > 0 && scale.endsWith('pentatonic')) continue;
    choices.set(scale, { tonic: root, scale, notes, reason: why, avoid });
  }
  const inOrder = [...choices.values()];
  if (isGuestWithSixth(core, analysis)) inOrder.sort((one, other) => one.avoid.length - other.avoid.length);
  const [first, ...others] = inOrder;
  return [...(first ? [first] : []), ...(frame.isBlues ? bluesScales(frame) : []), ...others];
}

/** The key's own scale first, but dorian over a ii that belongs to another chord. */
function inOrderOf(core: ChordCore, analysis: ChordAnalysis, own: ScaleOffer | null): readonly ScaleOffer[] {
  const usual = usualScales(core, analysis, own?.scale ?? null);
  if (own === null) return usual;
  const isTwo = analysis.job === 'related ii' && core.family === 'minor' && own.scale !== 'dorian';
  return isTwo ? [...usual.slice(0, 1), own, ...usual.slice(1)] : [own, ...usual];
}

/** iv6 in major: players take melodic minor before the scale in which a note rubs against the sixth. */
const isGuestWithSixth = ({ family, figure }: ChordCore, { job }: ChordAnalysis): boolean =>
  job === 'borrowed' && family === 'minor' && figure === '6';

/**
 * The scale has what the symbol names.
 * @param hasFifth a dominant with an altered tension keeps its fifth beside it (♯9 stands for the altered chord)
 */
function fits(symbol: ChordSymbol, core: ChordCore, scale: ScaleName, hasFifth: boolean): boolean {
  const isPentatonic = scale.endsWith('pentatonic');
  const isDominant = core.family === 'dominant' && core.root === pitchClassOf(symbol.root);
  const needsFifth = hasFifth && symbol.degrees.some((degree) => /^(b9|[b#](5|11|13))$/.test(degree));
  const named = heldDegrees(symbol).filter((degree) => {
    if (isPentatonic) return /^[b#]?[135]$/.test(degree);
    return degree !== '5' || !isDominant || (needsFifth && !symbol.degrees.includes('#9'));
  });
  const tones = maskOf(chordPitchClasses({ root: symbol.root, degrees: named }));
  return isWithin(tones, scaleTones(scale, core.root));
}

/** What players play of a symbol: a thirteenth chord stacks an eleventh that they leave out. */
const heldDegrees = ({ degrees }: ChordSymbol): string[] =>
  degrees.filter((degree) => !(degree === '11' && degrees.includes('13') && degrees.includes('3')));

/**
 * Spells scales over a chord. A double accidental is read more easily as its neighbour, but where the chord itself
 * has it; scales of a diminished chord have eight notes and no letters of their own.
 */
function spellerOf(symbol: ChordSymbol, { family }: ChordCore, root: string): (scale: ScaleName) => string[] {
  const place = fifthsOf(symbol.root);
  const named =
    family === 'diminished' ? [] : symbol.degrees.map((degree) => noteAt(place + degreeFifths(degree)));
  return (scale) =>
    scaleNotes(root, scale).map((note) => (named.includes(note) ? note : plainNoteAt(fifthsOf(note))));
}

/** `F/G` works as a chord on G. */
const rootName = (symbol: ChordSymbol, core: ChordCore): string =>
  symbol.bass !== undefined && pitchClassOf(symbol.root) !== core.root ? symbol.bass : symbol.root;

/** The blues scale fits the whole blues; on a blues in major the major blues scale too. */
function bluesScales({ key }: KeyFrame): ScaleChoice[] {
  const scales: readonly ScaleName[] = key.mode === 'blues' ? ['blues', 'major blues'] : ['blues'];
  return scales.map((scale) => ({
    tonic: key.tonic,
    scale,
    notes: scaleNotes(key.tonic, scale),
    reason: 'over the whole blues',
    avoid: [],
  }));
}

/**
 * A note a semitone above a note of the chord rubs against it. A dominant wants its altered tensions, so there only
 * the fourth is avoided, and under a fourth in place of the third, the third. A diminished chord avoids none.
 */
function avoided(core: ChordCore, notes: readonly string[]): string[] {
  const isChordTone = (note: string): boolean => contains(core.tones, pitchClassOf(note));
  if (core.family === 'diminished' || core.family === 'augmented') return [];
  if (core.family === 'dominant') {
    const rubbing = core.figure.includes('sus') ? 4 : 5;
    return notes.filter(
      (note) => semitonesUp(core.root, pitchClassOf(note)) === rubbing && !isChordTone(note),
    );
  }
  return notes.filter((note) => !isChordTone(note) && contains(core.tones, (pitchClassOf(note) + 11) % 12));
}
