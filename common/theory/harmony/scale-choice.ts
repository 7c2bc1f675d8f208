import type { ChordSymbol } from '../chord-symbol.ts';
import { chordPitchClasses, degreeFifths } from '../chord-tones.ts';
import { type NoteNames, noteName } from '../note-name.ts';
import { fifthsOf, noteAt, pitchClassOf, plainNoteAt } from '../pitch.ts';
import { SCALE_NAMES, type ScaleName, scaleNotes } from '../scale.ts';
import type { ChordAnalysis } from './analyse.ts';
import { type ChordCore, coreOf } from './chord-core.ts';
import { type KeyFrame, keyFrame, scaleTones, sourceName } from './key-frame.ts';
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
  const core = coreOf(symbol);
  const frame = keyFrame(analysis.key);
  const own = keyScale(core, frame, analysis, names);
  const usual = [...(own === null ? [] : [own]), ...usualScales(core, analysis, own?.scale ?? null)];
  const offered = [true, false].flatMap((hasFifth) => usual.map((offer) => ({ ...offer, hasFifth })));
  const root = rootName(symbol, core);
  const named = core.family === 'diminished' ? new Set() : chordNotes(symbol);
  const choices = new Map<ScaleName, ScaleChoice>();
  for (const { scale, why, lastResort, hasFifth } of offered) {
    if (choices.has(scale) || (lastResort === true && choices.size > 0)) continue;
    if (!fits(symbol, core, scale, hasFifth)) continue;
    const notes = scaleNotes(root, scale).map((note) => (named.has(note) ? note : withoutDouble(note)));
    const avoid = avoided(core, notes);
    if (avoid.length > 0 && scale.endsWith('pentatonic')) continue;
    choices.set(scale, { tonic: root, scale, notes, reason: why, avoid });
  }
  const inOrder = [...choices.values()];
  if (isGuestWithSixth(core, analysis)) inOrder.sort((one, other) => one.avoid.length - other.avoid.length);
  const [first, ...others] = inOrder;
  return [...(first ? [first] : []), ...(frame.isBlues ? bluesScales(frame) : []), ...others];
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
  const named = symbol.degrees.filter((degree) => {
    if (isPentatonic) return /^[b#]?[135]$/.test(degree);
    if (degree === '5') return !isDominant || (needsFifth && !symbol.degrees.includes('#9'));
    // A thirteenth chord stacks an eleventh that players leave out.
    return !(degree === '11' && symbol.degrees.includes('13') && symbol.degrees.includes('3'));
  });
  const tones = maskOf(chordPitchClasses({ root: symbol.root, degrees: named }));
  return isWithin(tones, scaleTones(scale, core.root));
}

/** The notes of the symbol, as they are spelled from its root. */
const chordNotes = ({ root, degrees }: ChordSymbol): ReadonlySet<string> =>
  new Set(degrees.map((degree) => noteAt(fifthsOf(root) + degreeFifths(degree))));

/** A double accidental is read more easily as its neighbour, but where the chord itself has it; scales of a diminished chord have eight notes and no letters of their own. */
const withoutDouble = (note: string): string => plainNoteAt(fifthsOf(note));

/** `F/G` works as a chord on G. */
const rootName = (symbol: ChordSymbol, core: ChordCore): string =>
  symbol.bass !== undefined && pitchClassOf(symbol.root) !== core.root ? symbol.bass : symbol.root;

const DEGREES = ['1', 'b2', '2', 'b3', '3', '4', '#4', '5', 'b6', '6', 'b7', '7'] as const;

/** The scale of the key (or the one it is borrowed from) with the chord's notes in the places of their letters. */
function keyScale(
  core: ChordCore,
  frame: KeyFrame,
  { key, job, source: lender }: ChordAnalysis,
  names: NoteNames,
): ScaleOffer | null {
  const isBlues = key.mode === 'blues' && job === 'blues';
  const from = isBlues ? 'mixolydian' : (lender ?? frame.home[0].scale);
  const byLetter = new Map(scaleNotes(key.tonic, from).map((note) => [note[0], note]));
  const root = fifthsOf(key.tonic) + degreeFifths(DEGREES[semitonesUp(frame.tonic, core.root)] ?? '1');
  const changed: string[] = [];
  for (let above = 0; above < 12; above++) {
    if (!contains(core.tones, (core.root + above) % 12)) continue;
    const note = noteAt(root + degreeFifths(chordDegree(core, above)));
    if (byLetter.get(note[0]) !== note) changed.push(note);
    byLetter.set(note[0], note);
  }
  const tones = maskOf([...byLetter.values()].map(pitchClassOf));
  const scale = SCALE_NAMES.find((name) => scaleTones(name, core.root) === tones);
  if (scale === undefined) return null;
  const source = sourceName(frame, from, names);
  const put = changed.map((note) => noteName(note, names)).join(' and ');
  return { scale, why: changed.length === 0 ? `the notes of ${source}` : `${source} with ${put}` };
}

/** Which letter a note of the chord takes: three semitones are a third, but nine a diminished seventh in °7. */
function chordDegree({ family, figure }: ChordCore, above: number): string {
  if (family === 'diminished' && above === 9) return 'bb7';
  if (above === 6) return 'b5';
  if (above === 8) return '#5';
  if (above === 3) return 'b3';
  return above === 2 && figure.includes('sus') ? '2' : (DEGREES[above] ?? '1');
}

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
