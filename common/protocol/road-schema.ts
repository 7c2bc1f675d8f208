import * as v from 'valibot';

/** A whole road travels in `adopt`; its size is bounded by the size of a message. */

const list = <const Item extends v.GenericSchema>(item: Item) => v.pipe(v.array(item), v.readonly());
const text = v.pipe(v.string(), v.maxLength(2_000));
const idText = v.pipe(v.string(), v.minLength(1), v.maxLength(100));
const finite = v.pipe(v.number(), v.finite());
const count = v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(10_000));
const pulses = v.pipe(finite, v.gtValue(0), v.maxValue(1_000));

const metre = v.object({
  text,
  upper: count,
  lower: count,
  pulses,
  groups: list(finite),
  compound: v.boolean(),
});

const reach = v.union([
  v.object({ leg: text }),
  v.object({ only: count }),
  v.object({ last: v.literal(true) }),
]);

const mark = v.variant('kind', [
  v.object({ kind: v.literal('break'), bars: count }),
  v.object({ kind: v.literal('stopTime') }),
  v.object({ kind: v.picklist(['hits', 'kicks']), counts: text }),
  v.object({ kind: v.picklist(['fill', 'hold', 'short', 'letRing', 'onCue']) }),
  v.object({ kind: v.literal('metre'), metre }),
  v.object({ kind: v.literal('key'), key: text }),
  v.object({ kind: v.literal('tempo'), bpm: v.pipe(finite, v.minValue(20), v.maxValue(400)) }),
  v.object({ kind: v.picklist(['rit', 'accel', 'aTempo']) }),
  v.object({ kind: v.literal('feel'), feel: text }),
  v.object({ kind: v.literal('dynamic'), sign: text }),
  v.object({ kind: v.literal('tacet'), bars: count }),
  v.object({ kind: v.picklist(['pickUp', 'segno', 'toCoda']) }),
]);

const cell = v.object({
  kind: v.picklist(['chord', 'rest', 'noChord', 'unknown']),
  symbol: text,
  atPulse: finite,
  lengthPulses: finite,
  pushed: v.boolean(),
  carried: v.boolean(),
});

const word = v.object({
  text,
  atPulse: finite,
  mark: v.exactOptional(mark),
  reach: v.exactOptional(reach),
});

const music = v.object({
  metre,
  pulses,
  pickUp: v.boolean(),
  cells: list(cell),
  words: list(word),
  key: text,
  repeats: v.exactOptional(v.picklist([1, 2])),
});

const bar = v.object({
  id: idText,
  pulses,
  phraseEnd: v.boolean(),
  marks: list(
    v.object({
      mark,
      atPulse: finite,
      pass: v.exactOptional(v.union([count, v.literal('last')])),
    }),
  ),
  content: v.object({
    written: count,
    music,
    letter: v.exactOptional(text),
    lineEnd: v.boolean(),
  }),
});

const bars = v.pipe(v.array(bar), v.minLength(1), v.readonly());

const leg = v.object({
  id: idText,
  name: text,
  bars,
  lastBars: v.exactOptional(bars),
  pickUp: v.exactOptional(bar),
  passes: v.union([v.pipe(count, v.minValue(1)), v.literal('open'), v.literal('vamp')]),
  tag: v.exactOptional(v.object({ timesInAll: count })),
  trade: v.exactOptional(count),
  words: v.exactOptional(text),
});

/** The same shape as `form/road.ts`, which a type test holds it to. */
export const roadSchema = v.object({
  legs: list(leg),
  tempoBpm: v.pipe(finite, v.minValue(20), v.maxValue(400)),
  countBars: v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(8)),
  key: text,
});
