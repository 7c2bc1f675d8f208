import { changeManner } from './change-manner.ts';
import type { Course } from './course.ts';
import { freshManner, type Manner } from './manner.ts';
import type { Moment } from './moment.ts';
import type { ComingBar } from './place.ts';
import { soloIn, soloistOf } from './solo.ts';
import { barsOf, type Spot } from './spot.ts';
import { tradingIn, turnOf } from './trading.ts';
import { writtenManner } from './written-manner.ts';
import { willBeLast } from './written-marks.ts';

const FEELS = { half: 'half-time', double: 'double-time' } as const;

const changeTo = (course: Course, change: Partial<Manner>, ms: number): void => {
  const { manner } = course;
  const isNew = (Object.keys(change) as (keyof Manner)[]).some((key) => change[key] !== manner[key]);
  if (isNew) changeManner(course, change, ms);
};

/** What the bar at the spot brings by itself, before what was called: another leg's trading, what the chart says. */
export const settleManner = (course: Course, spot: Spot, at: Moment, fromPulse: number): void => {
  const before = course.span?.kind === 'bar' ? course.span.coming : null;
  const trading = tradingIn(course.manner.trading, spot, before);
  changeTo(course, { trading, ...writtenManner(course, spot, at.count - fromPulse, fromPulse) }, at.ms);
};

/** Who solos from the bar at the spot on, after what was called. */
export const settleSolo = (course: Course, { leg }: Spot, at: Moment): void => {
  const { solo, trading } = course.manner;
  if (solo) changeTo(course, { solo: soloIn(solo, leg, Boolean(trading?.turns)) }, at.ms);
};

/** As the bar at the spot is told; what is as written and as always is left out. */
export const mannerOfBar = (
  course: Course,
  spot: Spot,
  count: number,
): Pick<ComingBar, 'stopTime' | 'semitones' | 'feel' | 'soloist' | 'turn' | 'loop'> => {
  const { semitones, stopTime, feel: called, writtenFeel, solo, loop } = course.manner;
  const isStopTime = (stopTime === 'called' || stopTime === 'written') && course.outBars === 0;
  const feel = called ? FEELS[called] : writtenFeel;
  const soloist = soloistOf(solo);
  const turn = course.manner.trading?.turns
    ? turnOf(course.manner, spot.barIndex, barsOf(spot).length, willBeLast(course, spot, count))
    : undefined;
  return {
    ...(isStopTime ? { stopTime: true } : {}),
    ...(semitones === 0 ? {} : { semitones }),
    ...(feel === null ? {} : { feel }),
    ...(soloist === null ? {} : { soloist }),
    ...(turn ? { turn } : {}),
    ...(loop ? { loop: { from: loop.from, to: loop.to, round: loop.round } } : {}),
  };
};

/** The take is over: the next one begins as written, in the key asked for, with the first of the solo order. */
export const restManner = (course: Course, ms: number): void => {
  const { solo } = course.manner;
  changeManner(
    course,
    { ...freshManner(course.startSemitones), solo: solo && { ...solo, at: 0, leg: null } },
    ms,
  );
};
