import { degreeFifths } from '../chord-tones.ts';
import { type NoteNames, noteName } from '../note-name.ts';
import { fifthsOf, noteAt, pitchClassOf } from '../pitch.ts';
import { SCALE_NAMES, type ScaleName, scaleNotes } from '../scale.ts';
import type { ChordAnalysis } from './analyse.ts';
import type { ChordCore } from './chord-core.ts';
import { type KeyFrame, scaleTones, sourceName } from './key-frame.ts';
import { contains, maskOf, semitonesUp } from './pitch-set.ts';
import type { ScaleOffer } from './usual-scales.ts';

const DEGREES = ['1', 'b2', '2', 'b3', '3', '4', '#4', '5', 'b6', '6', 'b7', '7'] as const;

/**
 * The scale of the key (or the one it is borrowed from) with the chord's notes in the places of their letters;
 * `null` where that is none with a name.
 * @param spell the notes of a scale over the chord as the reader sees them
 */
export function keyScale(
  core: ChordCore,
  frame: KeyFrame,
  { key, job, source: lender }: ChordAnalysis,
  spell: (scale: ScaleName) => readonly string[],
  names: NoteNames,
): ScaleOffer | null {
  const isBlues = key.mode === 'blues' && job === 'blues';
  const from = isBlues ? 'mixolydian' : (lender ?? frame.home[0].scale);
  const byLetter = new Map(scaleNotes(key.tonic, from).map((note) => [note[0], note]));
  const root = fifthsOf(key.tonic) + degreeFifths(DEGREES[semitonesUp(frame.tonic, core.root)] ?? '1');
  const changed: number[] = [];
  for (let above = 0; above < 12; above++) {
    if (!contains(core.tones, (core.root + above) % 12)) continue;
    const note = noteAt(root + degreeFifths(chordDegree(core, above)));
    if (byLetter.get(note[0]) !== note) changed.push(pitchClassOf(note));
    byLetter.set(note[0], note);
  }
  const tones = maskOf([...byLetter.values()].map(pitchClassOf));
  const scale = SCALE_NAMES.find((name) => scaleTones(name, core.root) === tones);
  if (scale === undefined) return null;
  const source = sourceName(frame, from, names);
  const put = spell(scale)
    .filter((note) => changed.includes(pitchClassOf(note)))
    .map((note) => noteName(note, names))
    .join(' and ');
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
