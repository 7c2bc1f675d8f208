import * as v from 'valibot';
import { roadSchema } from './road-schema.ts';

const idText = v.pipe(v.string(), v.minLength(1), v.maxLength(100));
const finite = v.pipe(v.number(), v.finite());
/** The pick-up has bar index −1. */
const barIndex = v.pipe(v.number(), v.integer(), v.minValue(-1), v.maxValue(100_000));
const pass = v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(10_000));
const bars = v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(1_000));
const semitones = v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(11));
const players = v.pipe(
  v.array(v.pipe(v.string(), v.minLength(1), v.maxLength(60))),
  v.minLength(1),
  v.maxLength(24),
  v.readonly(),
);
const tempoBpm = v.pipe(finite, v.minValue(20), v.maxValue(400));

/** The same shape as `stage/cue.ts`, which a type test holds it to. Whether a cue makes sense is the stage's to say. */
export const cueSchema = v.variant('kind', [
  v.object({
    kind: v.literal('callTune'),
    chart: idText,
    key: v.exactOptional(v.pipe(v.string(), v.maxLength(40))),
    tempoBpm: v.exactOptional(tempoBpm),
  }),
  v.object({
    kind: v.literal('start'),
    leg: v.exactOptional(idText),
    barIndex: v.exactOptional(barIndex),
    pass: v.exactOptional(pass),
  }),
  v.object({ kind: v.literal('stop'), at: v.exactOptional(v.literal('pass')) }),
  v.object({ kind: v.literal('lastChorus') }),
  v.object({ kind: v.literal('oneMore') }),
  v.object({ kind: v.literal('goOn') }),
  v.object({
    kind: v.literal('tag'),
    bars: v.exactOptional(bars),
    times: v.exactOptional(v.pipe(v.number(), v.integer(), v.minValue(2), v.maxValue(100))),
  }),
  v.object({
    kind: v.literal('break'),
    bars,
    at: v.exactOptional(v.picklist(['phrase', 'pass', 'lastBars'])),
  }),
  v.object({ kind: v.literal('goTo'), leg: idText, barIndex, pass: v.exactOptional(pass) }),
  v.object({ kind: v.literal('tempo'), bpm: tempoBpm, overBars: v.exactOptional(bars) }),
  v.object({
    kind: v.literal('here'),
    leg: idText,
    barIndex,
    pass: v.exactOptional(pass),
    pulse: v.exactOptional(v.pipe(finite, v.minValue(0), v.maxValue(1_000))),
    pressedAtMs: v.exactOptional(finite),
  }),
  v.object({ kind: v.literal('adopt'), road: roadSchema }),
  v.object({ kind: v.picklist(['stopTime', 'stopTimeOff']) }),
  v.object({ kind: v.literal('trade'), bars, players }),
  v.object({ kind: v.literal('soloOrder'), players }),
  v.object({ kind: v.literal('nextSoloist') }),
  v.object({ kind: v.picklist(['up', 'down']), semitones: v.exactOptional(semitones) }),
  v.object({ kind: v.literal('feel'), feel: v.picklist(['half', 'double', 'as written']) }),
  v.object({ kind: v.literal('dynamic'), dynamic: v.picklist(['down', 'build', 'as written']) }),
  v.object({
    kind: v.literal('hold'),
    leg: v.exactOptional(idText),
    barIndex: v.exactOptional(barIndex),
  }),
  v.object({ kind: v.literal('release'), onTap: v.exactOptional(v.boolean()) }),
  v.object({
    kind: v.literal('loop'),
    leg: idText,
    from: barIndex,
    to: barIndex,
    countIn: v.exactOptional(v.boolean()),
    stepBpm: v.exactOptional(v.pipe(finite, v.minValue(0.1), v.maxValue(100))),
    everyRounds: v.exactOptional(v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(100))),
    goalBpm: v.exactOptional(tempoBpm),
  }),
  v.object({ kind: v.literal('loopOff') }),
  v.object({ kind: v.literal('tap'), tappedAtMs: finite, downbeat: v.exactOptional(v.boolean()) }),
  v.object({ kind: v.literal('resume') }),
  v.object({ kind: v.literal('itHappened'), cue: idText }),
]);

/** A line of the take's log also holds what takes a cue back. */
export const calledCueSchema = v.union([cueSchema, v.object({ kind: v.literal('takeBack'), cue: idText })]);
