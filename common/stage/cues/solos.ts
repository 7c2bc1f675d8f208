import { changeManner } from '../change-manner.ts';
import type { Course } from '../course.ts';
import type { Cue } from '../cue.ts';
import { type CueRule, refusal } from '../cue-rule.ts';
import type { Refusal } from '../refusal.ts';
import { isSoloLeg, nextSoloistOf, soloIn } from '../solo.ts';
import type { Spot } from '../spot.ts';
import { refusePlayers } from './players.ts';

type SoloOrder = Extract<Cue, { kind: 'soloOrder' }>;
type NextSoloist = Extract<Cue, { kind: 'nextSoloist' }>;

/** "solo order": who solos, named in order. In solos the first one is on at once. */
export const soloOrder: CueRule<SoloOrder> = {
  family: 'more',
  while: ['waiting', 'rolling', 'ended'],
  boundary: () => 'atOnce',
  refuseAtCall: ({ players }) => refusePlayers(players),
  atOnce: (course, { players }, ms) => {
    const named = { order: players, at: 0, leg: null };
    const { spot, span, manner } = course;
    const isOn = course.state === 'rolling' && span?.kind === 'bar' && spot;
    const solo = isOn ? soloIn(named, spot.leg, Boolean(manner.trading?.turns)) : named;
    changeManner(course, { solo }, ms);
  },
  tell: ({ players }) => ({ name: 'Solo order', detail: players.join(', ') }),
};

const moveOn = (course: Course, ms: number): Refusal | null => {
  const { leg } = course.spot as Spot;
  const { solo, trading } = course.manner;
  if (!solo) return refusal('noOrder', 'Nobody is named: name the solo order first.');
  const next = nextSoloistOf(solo);
  if (next === null) return refusal('noNext', `${solo.order.at(-1)} is the last in the order.`);
  const before = course.span?.kind === 'bar' ? course.span.coming.leg.id : leg.id;
  if (leg.id !== before && !isSoloLeg(leg))
    return refusal('noSolos', `${leg.name} comes next: no solo there.`);
  const at = solo.leg === null ? solo.at : solo.at + 1;
  changeManner(
    course,
    { solo: { ...solo, at, leg: leg.id }, trading: trading && { ...trading, turns: null } },
    ms,
  );
  return null;
};

/** "next soloist": from the next top on the next in the order solos; trading is over. */
export const nextSoloist: CueRule<NextSoloist> = {
  family: 'move',
  while: ['rolling'],
  boundary: () => 'pass',
  turn: 'manner',
  land: (course, _, { ms }) => moveOn(course, ms),
  tell: (_, { last, next }) => {
    const soloist = next?.soloist ?? '';
    return last?.soloist === undefined
      ? { name: 'Next soloist', detail: soloist }
      : { name: `${last.soloist}’s last`, detail: soloist === '' ? '' : `${soloist} next` };
  },
};
