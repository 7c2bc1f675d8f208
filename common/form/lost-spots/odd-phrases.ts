import { count } from '../count.ts';
import type { HeardPass, Phrase } from './heard-pass.ts';
import type { Finder, FoundSpot } from './lost-spot.ts';

/**
 * Phrases that the hands don't expect: an odd number of bars, or a number that leaves the section without whole
 * fours. Two and two bars make four.
 */
export const oddPhraseSpots: Finder = (pass) => {
  // After the last bar of the road nobody comes in early, and a tag is cut from a phrase.
  if (pass.then === null || pass.leg.tag) return [];
  return sectionsOf(pass).flatMap((phrases) => {
    const total = phrases.reduce((sum, each) => sum + lengthOf(each), 0);
    const odd = phrases.filter((each) => lengthOf(each) % 2 === 1 && lengthOf(each) > 1);
    const uneven =
      odd.length > 0 || total % 4 === 0 ? odd : phrases.filter((each) => lengthOf(each) % 4 !== 0);
    // A section that is a single bar or two is a tail, not a phrase.
    return total <= 2 ? [] : uneven.map(spotOf);
  });
};

const lengthOf = ({ from, to }: Phrase): number => to - from;

/** The phrases, parted where a rehearsal letter stands. */
const sectionsOf = ({ phrases, bars }: HeardPass): Phrase[][] => {
  const sections: Phrase[][] = [];
  for (const phrase of phrases) {
    const last = sections.at(-1);
    if (last === undefined || bars[phrase.from]?.content.letter !== undefined) sections.push([phrase]);
    else last.push(phrase);
  }
  return sections;
};

const spotOf = (phrase: Phrase): FoundSpot => {
  const length = lengthOf(phrase);
  const numbers = length === 1 ? `${phrase.to}` : `${phrase.from + 1} to ${phrase.to}`;
  const usual = length < 4 ? 4 : length - (length % 4);
  return {
    kind: 'oddPhrase',
    fromBar: phrase.from,
    toBar: phrase.to - 1,
    atBar: length > usual ? phrase.from + usual : phrase.to - 1,
    weight: length % 2 === 1 ? 55 : 40,
    reason: `a phrase of ${count(length, 'bar')}, ${numbers}`,
    announce: `${count(length, 'bar')} from ${phrase.from + 1}, not ${usual}`,
  };
};
