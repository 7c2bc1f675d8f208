import type { ScaleChoice } from '../../theory/harmony/scale-choice.ts';
import { pitchClassOf } from '../../theory/pitch.ts';

const COLOURS: Readonly<Record<number, string>> = { 1: 'b9', 2: '9', 3: '#9', 5: '11', 8: 'b13', 9: '13' };

/**
 * The colours that a scale adds to a chord on its tonic, without those to avoid: for the scale chosen for a chord in its
 * function. Phrygian dominant → `['b9', 'b13']`, so that G7 leads to C minor as it sounds there.
 */
export function scaleColours({
  tonic,
  notes,
  avoid,
}: Pick<ScaleChoice, 'tonic' | 'notes' | 'avoid'>): string[] {
  const isMinor = !notes.some((note) => above(tonic, note) === 4);
  return notes
    .filter((note) => !avoid.includes(note) && !(isMinor && above(tonic, note) === 3))
    .flatMap((note) => COLOURS[above(tonic, note)] ?? []);
}

const above = (tonic: string, note: string): number => (pitchClassOf(note) - pitchClassOf(tonic) + 12) % 12;
