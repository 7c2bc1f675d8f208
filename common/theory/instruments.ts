/** The kind of part an instrument plays in a small band. */
export type Part = 'horn' | 'guitar' | 'keys' | 'bass' | 'voice' | 'drums' | 'other';

export interface Instrument {
  readonly id: string;
  readonly name: string;
  readonly part: Part;
  /** Written minus sounding pitch in semitones: a tenor sax reads 14 above what sounds. */
  readonly semitonesUp: number;
  /** The note that sounds where the player reads C. */
  readonly transposition: 'C' | 'B♭' | 'E♭' | 'F' | 'G' | 'A';
}

/** The transposition that follows from the distance, whatever the octave. */
const TRANSPOSITIONS: Readonly<Record<number, Instrument['transposition']>> = {
  0: 'C',
  2: 'B♭',
  3: 'A',
  5: 'G',
  7: 'F',
  9: 'E♭',
};

function instrument(name: string, part: Part, semitonesUp: number): Instrument {
  const transposition = TRANSPOSITIONS[((semitonesUp % 12) + 12) % 12];
  if (transposition === undefined)
    throw new Error(`no transposition is named for ${semitonesUp} semitones (${name})`);
  const id = name
    .replaceAll('♭', '-flat')
    .toLowerCase()
    .replaceAll(/[^a-z]+/g, '-');
  return { id, name, part, semitonesUp, transposition };
}

/**
 * The instruments that small bands have, those met most often first in each group. Distances of the
 * transposing winds, guitar and bass: see `tests/published/transposition`; the others are common practice,
 * no source. A voice reads at pitch; `tenor voice` reads the treble clef an octave above.
 */
export const INSTRUMENTS: readonly Instrument[] = [
  instrument('voice', 'voice', 0),
  instrument('tenor voice', 'voice', 12),
  instrument('trumpet', 'horn', 2),
  instrument('alto sax', 'horn', 9),
  instrument('tenor sax', 'horn', 14),
  instrument('trombone', 'horn', 0),
  instrument('soprano sax', 'horn', 2),
  instrument('baritone sax', 'horn', 21),
  instrument('clarinet', 'horn', 2),
  instrument('flute', 'horn', 0),
  instrument('flugelhorn', 'horn', 2),
  instrument('cornet', 'horn', 2),
  instrument('trumpet in C', 'horn', 0),
  instrument('horn in F', 'horn', 7),
  instrument('tuba', 'horn', 0),
  instrument('sousaphone', 'horn', 0),
  instrument('euphonium', 'horn', 0),
  instrument('euphonium, treble clef', 'horn', 14),
  instrument('trombone, treble clef', 'horn', 14),
  instrument('baritone horn, treble clef', 'horn', 14),
  instrument('tenor horn', 'horn', 9),
  instrument('bass clarinet', 'horn', 14),
  instrument('clarinet in A', 'horn', 3),
  instrument('clarinet in E♭', 'horn', -3),
  instrument('sopranino sax', 'horn', -3),
  instrument('bass sax', 'horn', 26),
  instrument('C melody sax', 'horn', 12),
  instrument('piccolo', 'horn', -12),
  instrument('alto flute', 'horn', 5),
  instrument('recorder', 'horn', -12),
  instrument('tin whistle', 'horn', -12),
  instrument('oboe', 'horn', 0),
  instrument('cor anglais', 'horn', 7),
  instrument('bassoon', 'horn', 0),
  instrument('guitar', 'guitar', 12),
  instrument('banjo', 'guitar', 12),
  instrument('mandolin', 'guitar', 0),
  instrument('ukulele', 'guitar', 0),
  instrument('pedal steel', 'guitar', 0),
  instrument('piano', 'keys', 0),
  instrument('organ', 'keys', 0),
  instrument('keyboard', 'keys', 0),
  instrument('accordion', 'keys', 0),
  instrument('vibraphone', 'keys', 0),
  instrument('marimba', 'keys', 0),
  instrument('xylophone', 'keys', -12),
  instrument('glockenspiel', 'keys', -24),
  instrument('bass guitar', 'bass', 12),
  instrument('double bass', 'bass', 12),
  instrument('drums', 'drums', 0),
  instrument('percussion', 'drums', 0),
  instrument('violin', 'other', 0),
  instrument('viola', 'other', 0),
  instrument('cello', 'other', 0),
  instrument('harmonica', 'other', 0),
  instrument('harp', 'other', 0),
  instrument('other, concert pitch', 'other', 0),
  instrument('other in B♭', 'other', 2),
  instrument('other in E♭', 'other', 9),
  instrument('other in F', 'other', 7),
];

const BY_ID: ReadonlyMap<string, Instrument> = new Map(INSTRUMENTS.map((each) => [each.id, each]));

/** The instrument of that id, `undefined` for an id that is not (or no longer) known. */
export function instrumentById(id: string): Instrument | undefined {
  return BY_ID.get(id);
}
