import type { Course } from '../course.ts';
import type { Cue } from '../cue.ts';
import { type CueRule, refusal, type Scene } from '../cue-rule.ts';
import { letterWords } from '../place-words.ts';
import type { Refusal } from '../refusal.ts';
import { partingOf, type Spot } from '../spot.ts';

/**
 * The pass that can still be made the last. Beyond the bar where the last pass parts from the others it is
 * too late for this one.
 */
const closingPass = (spot: Spot): number =>
  spot.parted !== '' && Number.isFinite(partingOf(spot.leg)) ? spot.pass + 1 : spot.pass;

const setLimit = (course: Course, spot: Spot, limit: number): null => {
  const { tag } = spot.leg;
  const leg = tag ? { ...spot.leg, tag: { timesInAll: tag.timesInAll + limit - spot.limit } } : spot.leg;
  course.spot = { ...spot, leg, limit, limitCalled: true };
  return null;
};

const close = (course: Course): Refusal | null => {
  const spot = course.spot as Spot;
  const pass = closingPass(spot);
  if (spot.limit > pass) return setLimit(course, spot, pass);
  const words =
    spot.pass >= spot.limit ? 'This is the last one already.' : 'The next one is the last already.';
  return refusal('lastAlready', words);
};

/** What the band hears next, told so that a last chorus can not be taken for another. */
const whatFollows = ({ last, next }: Scene): string => {
  if (!next) return 'the end';
  if (!last || next.leg.id !== last.leg.id) return next.leg.name;
  if (next.place.pass === last.place.pass) return letterWords(next.bar) || 'the ending';
  return 'after one more';
};

export const lastChorus: CueRule<Extract<Cue, { kind: 'lastChorus' }>> = {
  family: 'close',
  while: ['rolling'],
  boundary: () => 'passCount',
  turn: 'place',
  forThisLeg: true,
  land: close,
  tell: (_, scene) => ({
    name: scene.last?.leg.passes === 'vamp' ? 'Go on' : 'Last chorus',
    detail: whatFollows(scene),
  }),
};

export const oneMore: CueRule<Extract<Cue, { kind: 'oneMore' }>> = {
  family: 'more',
  while: ['rolling'],
  boundary: () => 'passCount',
  turn: 'place',
  forThisLeg: true,
  land: (course) => {
    const spot = course.spot as Spot;
    if (Number.isFinite(spot.limit)) return setLimit(course, spot, spot.limit + 1);
    return refusal('nothingEnds', 'Nothing would end here: it goes on until you call the last one.');
  },
  tell: (_, { last }) => ({ name: 'One more', detail: last ? `${last.leg.name} again` : '' }),
};

export const goOn: CueRule<Extract<Cue, { kind: 'goOn' }>> = {
  family: 'close',
  while: ['rolling'],
  boundary: () => 'passCount',
  turn: 'place',
  forThisLeg: true,
  land: (course) =>
    (course.spot as Spot).leg.passes === 'vamp' ? close(course) : refusal('noVamp', 'This is not a vamp.'),
  tell: (_, scene) => ({ name: 'Go on', detail: whatFollows(scene) }),
};
