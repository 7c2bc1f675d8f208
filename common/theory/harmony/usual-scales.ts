import type { ScaleName } from '../scale.ts';
import type { ChordAnalysis } from './analyse.ts';
import type { ChordCore } from './chord-core.ts';

/** A scale and why it is offered. */
export interface ScaleOffer {
  readonly scale: ScaleName;
  readonly why: string;
  /** Only where nothing before it fits the chord. */
  readonly lastResort?: boolean;
}

const SAFE = 'five notes, none of them to avoid';
const LYDIAN: ScaleOffer = { scale: 'lydian', why: 'the raised fourth rubs against nothing' };
const MAJOR: ScaleOffer = { scale: 'major', why: 'the chord as a home' };
const MIXOLYDIAN: ScaleOffer = { scale: 'mixolydian', why: 'the plain dominant' };
const LYDIAN_DOMINANT: ScaleOffer = {
  scale: 'lydian dominant',
  why: 'the raised eleventh rubs against nothing',
};
const HALF_WHOLE: ScaleOffer = {
  scale: 'half-whole diminished',
  why: 'flat ninth and natural thirteenth together',
};
const ALTERED: ScaleOffer = { scale: 'altered', why: 'every tension altered: the strongest pull' };
const PHRYGIAN_DOMINANT: ScaleOffer = {
  scale: 'phrygian dominant',
  why: 'flat ninth and thirteenth: leads to minor',
};
const FLAT_THIRTEEN: ScaleOffer = { scale: 'mixolydian ♭13', why: 'natural ninth, flat thirteenth' };
const WHOLE_TONE: ScaleOffer = { scale: 'whole tone', why: 'raised fifth, natural ninth' };

/**
 * What players choose for a chord of this family and function, the likeliest first, after the key's own scale.
 * Common practice, no source.
 * @param own the key's own scale over the chord, `null` where that is none with a name
 */
export function usualScales(
  { family, figure }: ChordCore,
  { job, numeral, goal }: ChordAnalysis,
  own: ScaleName | null,
): readonly ScaleOffer[] {
  switch (family) {
    case 'major': {
      // Without a third, where the key has a minor one.
      if (numeral.degree === numeral.degree.toLowerCase()) return minorScales(job, numeral);
      const isGuest = job === 'borrowed' || job === 'visited';
      return [...(isGuest ? [LYDIAN, MAJOR] : [MAJOR, LYDIAN]), { scale: 'major pentatonic', why: SAFE }];
    }
    case 'minor':
      return minorScales(job, numeral);
    case 'dominant':
      if (figure.includes('sus')) return SUSPENDED;
      return dominantScales(job !== 'blues' && goal?.by === 'fifth', own);
    case 'half-diminished':
      return [
        { scale: 'locrian', why: 'as over the ii of a minor key' },
        { scale: 'locrian ♮2', why: 'a natural ninth, which may be held' },
      ];
    case 'diminished':
      return [{ scale: 'whole-half diminished', why: 'a tone above each note of the chord' }];
    case 'augmented':
      return [
        { scale: 'whole tone', why: 'all in whole tones, as the chord is' },
        { scale: 'lydian augmented', why: 'with a major seventh' },
      ];
    case 'power':
      return [
        { scale: 'minor pentatonic', why: SAFE },
        { scale: 'major pentatonic', why: SAFE },
      ];
  }
}

const minorScales = (
  job: ChordAnalysis['job'],
  { degree }: ChordAnalysis['numeral'],
): readonly ScaleOffer[] => (job === 'tonic' && degree === 'i' ? MINOR_HOME : MINOR_ON_ITS_WAY);

const MINOR_HOME: readonly ScaleOffer[] = [
  { scale: 'melodic minor', why: 'sixth and seventh raised: a minor chord at rest' },
  { scale: 'dorian', why: 'sixth raised, seventh flat' },
  { scale: 'natural minor', why: 'darkest: sixth and seventh flat' },
  { scale: 'harmonic minor', why: 'flat sixth, raised seventh' },
  { scale: 'minor pentatonic', why: SAFE },
];

const MINOR_ON_ITS_WAY: readonly ScaleOffer[] = [
  { scale: 'dorian', why: 'as over a ii' },
  { scale: 'melodic minor', why: 'with a raised seventh' },
  { scale: 'natural minor', why: 'darker: flat sixth' },
  { scale: 'minor pentatonic', why: SAFE },
  { scale: 'phrygian', why: 'flat second and sixth', lastResort: true },
  { scale: 'harmonic minor', why: 'flat sixth, raised seventh', lastResort: true },
];

const SUSPENDED: readonly ScaleOffer[] = [
  { scale: 'mixolydian', why: 'the plain suspended dominant' },
  { scale: 'dorian', why: 'a minor third, which does not rub against the fourth' },
  { scale: 'phrygian', why: 'flat ninth and thirteenth: the dark suspended dominant' },
];

const ALL_ALTERED = [HALF_WHOLE, ALTERED, WHOLE_TONE, PHRYGIAN_DOMINANT, FLAT_THIRTEEN];

/** A dominant that falls a fifth takes tensions, those of minor where the key's own scale has them. */
function dominantScales(fallsFifth: boolean, own: ScaleName | null): readonly ScaleOffer[] {
  if (!fallsFifth) {
    return [LYDIAN_DOMINANT, MIXOLYDIAN, ...ALL_ALTERED.map((offer) => ({ ...offer, lastResort: true }))];
  }
  const leadsToMinor = own === 'phrygian dominant' || own === 'mixolydian ♭13';
  return leadsToMinor
    ? [PHRYGIAN_DOMINANT, ALTERED, FLAT_THIRTEEN, HALF_WHOLE, WHOLE_TONE, MIXOLYDIAN, LYDIAN_DOMINANT]
    : [MIXOLYDIAN, LYDIAN_DOMINANT, ALTERED, HALF_WHOLE, WHOLE_TONE, FLAT_THIRTEEN, PHRYGIAN_DOMINANT];
}
