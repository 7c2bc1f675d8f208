import * as v from 'valibot';
import { roadSchema } from './road-schema.ts';

const idText = v.pipe(v.string(), v.minLength(1), v.maxLength(100));
const finite = v.pipe(v.number(), v.finite());
/** The pick-up has bar index −1. */
const barIndex = v.pipe(v.number(), v.integer(), v.minValue(-1), v.maxValue(100_000));
const pass = v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(10_000));
const bars = v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(1_000));
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
    pressedAtMs: v.exactOptional(finite),
  }),
  v.object({ kind: v.literal('adopt'), road: roadSchema }),
]);

/** A line of the take's log also holds what takes a cue back. */
export const calledCueSchema = v.union([cueSchema, v.object({ kind: v.literal('takeBack'), cue: idText })]);
