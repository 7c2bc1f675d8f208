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

/** Strummed shapes: all strings sound where they can, the root below. */
const STRING_LEFT_OUT = 1;
const NOT_ON_ROOT = 0.5;
const NOT_ON_ROOT_STRUMMED = 3;
const EASY_FRET_STRUMMED = 5;
/** Three frets beside the nut of a guitar. */
const EASY_STRETCH_STRUMMED_MM = 70;

/**
 * What a shape costs by itself, in units of one voice moving by a semitone (SHAPE-16): 1 for each 10 mm of stretch
 * beyond 50; a quarter for each finger; 1 for a barre of the index finger, 1.5 for another; 1 for each silent string
 * inside; 1.5 for each open string under a hand above the first position; half for each fret of the hand above the
 * tenth, on a small instrument for each fret of the hand; half where neither the root nor the bass after the slash is
 * lowest; 1 for each interval below a fifth whose lower note lies under C3. A strummed shape is easy up to 70 mm, costs
 * half for each fret above the fifth and nothing for low intervals, but 1 for each string that does not sound, 1 more
 * for each of them inside, and 3 where it is not on its
 * root or bass. The weights are our own.
 */
export function ease(shape: FretShape, instrument: FretInstrument): number {
  const { frets, fingers, barres, stretchMm, handFret, isInverted } = shape;
  const played = frets.map((fret) => fret !== null);
  const inside = played
    .slice(played.indexOf(true), played.lastIndexOf(true))
    .filter((sounds) => !sounds).length;
  const open = handFret > FIRST_POSITION ? frets.filter((fret) => fret === 0).length : 0;
  const strummed = isStrummed(shape, instrument);
  const common =
    Math.max(0, stretchMm - (strummed ? EASY_STRETCH_STRUMMED_MM : EASY_STRETCH_MM)) / MM_A_UNIT +
    new Set(fingers.filter((finger) => finger !== null)).size / 4 +
    barres.reduce((sum, { finger }) => sum + (finger === 1 ? 1 : 1.5), 0) +
    inside +
    1.5 * open +
    Math.max(0, handFret - (strummed ? EASY_FRET_STRUMMED : EASY_FRET)) / 2 +
    (isSmall(instrument) ? AWAY_FROM_NUT * handFret : 0);
  if (!strummed) return common + muddyIn(shape) + (isInverted ? NOT_ON_ROOT : 0);
  const left = played.filter((sounds) => !sounds).length;
  return common + STRING_LEFT_OUT * left + inside + (isInverted ? NOT_ON_ROOT_STRUMMED : 0);
}

/** Over all its strings at once, as chords of the first position and barre chords are; a small instrument has no low strings to leave out. */
export const isStrummed = ({ kinds }: FretShape, instrument: FretInstrument): boolean =>
  !isSmall(instrument) && (kinds.includes('open chord') || kinds.includes('barre chord'));

const muddyIn = ({ midi }: FretShape): number =>
  midi.filter((low, i) => low < LOW_MIDI && (midi[i + 1] ?? low + FIFTH) - low < FIFTH).length;
