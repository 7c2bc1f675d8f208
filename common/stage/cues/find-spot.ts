import type { Course } from '../course.ts';
import { refusal } from '../cue-rule.ts';
import type { Refusal } from '../refusal.ts';
import { atPass, barsOf, enterLeg, isPass, type Spot } from '../spot.ts';

export const NO_PLACE = refusal('noSuchPlace', 'There is no such bar in this arrangement.');
export const NO_PASS = refusal('noSuchPass', 'It is not played that often.');

/** The bar that a cue names. */
export interface Target {
  readonly leg: string;
  readonly barIndex: number;
  readonly pass?: number | undefined;
}

/** The spot, or why there is none. A leg left and entered anew has its passes as written. */
export const findSpot = (course: Course, to: Target): Spot | Refusal => {
  const { spot, road } = course;
  if (!isPass(to.pass)) return NO_PASS;
  const same = spot?.leg.id === to.leg ? spot : null;
  const index = same ? -1 : road.legs.findIndex((leg) => leg.id === to.leg);
  const top = same ? atPass(same, to.pass ?? same.pass) : enterLeg(road, index, to.pass);
  if (!top || !Number.isInteger(to.barIndex) || to.barIndex < 0) return NO_PLACE;
  if (to.barIndex >= barsOf(top).length) return NO_PLACE;
  return atPass(top, top.pass, to.barIndex);
};

export const isRefusal = (found: Spot | Refusal): found is Refusal => 'why' in found;

/** More passes than are written, where nobody has said so. */
const tooManyPasses = (course: Course, { leg: legId, pass }: Target): boolean => {
  if (pass === undefined) return false;
  if (course.spot?.leg.id === legId) return pass > course.spot.limit;
  const passes = course.road.legs.find((leg) => leg.id === legId)?.passes;
  return typeof passes === 'number' && pass > passes;
};

/** Why nobody can be sent there; null where it is a bar of the road in a pass that is played. */
export const refuseTarget = (course: Course, to: Target): Refusal | null => {
  const found = findSpot(course, to);
  if (isRefusal(found)) return found;
  return tooManyPasses(course, to) ? NO_PASS : null;
};
