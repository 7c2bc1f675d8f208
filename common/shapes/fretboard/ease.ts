import { type FretInstrument, isSmall } from './fret-instrument.ts';
import type { FretShape } from './fret-shape.ts';

const EASY_STRETCH_MM = 50;
const MM_A_UNIT = 10;
const FIRST_POSITION = 4;
const EASY_FRET = 10;
/** C3: below it thirds and fourths sound muddy. */
const LOW_MIDI = 48;
const FIFTH = 7;
/** Small instruments are played beside the nut. */
const AWAY_FROM_NUT = 0.5;

/**
 * What a shape costs by itself, in units of one voice moving by a semitone (SHAPE-16): 1 for each 10 mm of stretch
 * beyond 50; a quarter for each finger; 1 for a barre of the index finger, 1.5 for another; 1 for each silent string
 * inside; 1.5 for each open string under a hand above the first position; half for each fret of the hand above the
 * tenth, on a small instrument for each fret of the hand; half where neither the root nor the bass after the slash is lowest; 1 for each interval below a fifth
 * whose lower note lies under C3. The weights are our own.
 */
export function ease(
  { frets, fingers, barres, stretchMm, handFret, midi, isInverted }: FretShape,
  instrument: FretInstrument,
): number {
  const played = frets.map((fret) => fret !== null);
  const inside = played.slice(played.indexOf(true), played.lastIndexOf(true));
  const open = handFret > FIRST_POSITION ? frets.filter((fret) => fret === 0).length : 0;
  const muddy = midi.filter((low, i) => low < LOW_MIDI && (midi[i + 1] ?? low + FIFTH) - low < FIFTH);
  return (
    Math.max(0, stretchMm - EASY_STRETCH_MM) / MM_A_UNIT +
    new Set(fingers.filter((finger) => finger !== null)).size / 4 +
    barres.reduce((sum, { finger }) => sum + (finger === 1 ? 1 : 1.5), 0) +
    inside.filter((sounds) => !sounds).length +
    1.5 * open +
    Math.max(0, handFret - EASY_FRET) / 2 +
    (isSmall(instrument) ? AWAY_FROM_NUT * handFret : 0) +
    (isInverted ? 0.5 : 0) +
    muddy.length
  );
}
