import fc from 'fast-check';
import type { Mark } from '../../../common/chart/bar-music.ts';
import type { Leg, Road, RoadBar } from '../../../common/form/road.ts';
import type { Cue } from '../../../common/stage/cue.ts';
import { bar, type Calls, leg, mark, road } from './support-road.ts';

const somePass = fc.constantFrom(undefined, undefined, 1, 2, 'last' as const);
const someMark = fc.oneof(
  fc
    .record({ bars: fc.integer({ min: 1, max: 5 }), pass: somePass })
    .map(({ bars, pass }) => mark({ kind: 'break', bars }, 0, pass)),
  fc
    .record({
      bpm: fc.integer({ min: 40, max: 300 }),
      atPulse: fc.constantFrom(0, 0, 1, 1.5),
      pass: somePass,
    })
    .map(({ bpm, atPulse, pass }) => mark({ kind: 'tempo', bpm }, atPulse, pass)),
  fc.constant(mark({ kind: 'fill' }, 2)),
  fc.constant(mark({ kind: 'key', key: 'G' })),
  fc
    .record({
      kind: fc.constantFrom('rit', 'accel', 'aTempo'),
      atPulse: fc.constantFrom(0, 0, 1, 1.5),
      pass: somePass,
    })
    .map(({ kind, atPulse, pass }) => mark({ kind }, atPulse, pass)),
  fc
    .record({
      kind: fc.constantFrom('hold', 'onCue'),
      atPulse: fc.constantFrom(0, 1, 1.5, 3),
      pass: somePass,
    })
    .map(({ kind, atPulse, pass }) => mark({ kind }, atPulse, pass)),
  fc
    .record({
      written: fc.constantFrom<Mark>(
        { kind: 'stopTime' },
        { kind: 'feel', feel: 'half-time' },
        { kind: 'feel', feel: 'swing' },
        { kind: 'dynamic', sign: 'ff' },
        { kind: 'dynamic', sign: 'dim' },
      ),
      atPulse: fc.constantFrom(0, 1, 1.5, 3),
      pass: somePass,
    })
    .map(({ written, atPulse, pass }) => mark(written, atPulse, pass)),
);

const someBars = (prefix: string, most: number): fc.Arbitrary<RoadBar[]> =>
  fc
    .array(
      fc.record({
        pulses: fc.constantFrom(4, 4, 4, 2, 3, 5, 7),
        phraseEnd: fc.boolean(),
        chords: fc.constantFrom([0], [0], [0], [0, 1], [0, 1.5], []),
        letter: fc.constantFrom('', '', '', 'A'),
        marks: fc.oneof(
          { weight: 5, arbitrary: fc.constant([]) },
          { weight: 1, arbitrary: fc.array(someMark, { maxLength: 2 }) },
        ),
      }),
      { minLength: 1, maxLength: most },
    )
    .map((specs) => specs.map((spec, i) => bar(`${prefix}${i}`, spec)));

const someLeg = (id: string): fc.Arbitrary<Leg> =>
  fc
    .record({
      bars: someBars(`${id}.`, 7),
      passes: fc.constantFrom<Leg['passes']>(1, 1, 2, 3, 'open', 'vamp'),
      coda: fc.option(fc.record({ from: fc.nat(6), bars: someBars(`${id}.coda`, 4) }), {
        freq: 3,
        nil: null,
      }),
      pickUp: fc.option(fc.constantFrom(1, 2, 1.5), { freq: 3, nil: null }),
      trade: fc.option(fc.constantFrom(1, 2, 4), { freq: 3, nil: null }),
      solos: fc.boolean(),
    })
    .map(({ bars, passes, coda, pickUp, trade, solos }) =>
      leg(id, passes, bars, {
        ...(trade === null ? {} : { trade }),
        ...(solos ? { name: 'Solos' } : {}),
        ...(coda ? { lastBars: [...bars.slice(0, coda.from), ...coda.bars] } : {}),
        ...(pickUp ? { pickUp: bar(`${id}.up`, { pulses: pickUp, metrePulses: 4 }) } : {}),
      }),
    );

const LEGS = ['A', 'B', 'C', 'D'] as const;

/** One to four legs of any kind, now and then a written tag at the end. */
export const someRoad: fc.Arbitrary<Road> = fc
  .record({
    legs: fc.integer({ min: 1, max: 4 }).chain((n) => fc.tuple(...LEGS.slice(0, n).map(someLeg))),
    tag: fc.integer({ min: 0, max: 3 }),
    tempoBpm: fc.constantFrom(120, 90, 132, 400, 63, 20),
    countBars: fc.integer({ min: 0, max: 2 }),
  })
  .map(({ legs, tag, tempoBpm, countBars }) => {
    const last = legs.at(-1)?.bars.slice(-2) ?? [];
    const written = tag === 3 ? [leg('tag', 2, last, { tag: { timesInAll: 3 } })] : [];
    return road([...legs, ...written], { tempoBpm, countBars });
  });

const target = {
  leg: fc.constantFrom('A', 'A', 'B', 'B', 'C', 'D', 'tag', 'nowhere'),
  barIndex: fc.integer({ min: -1, max: 7 }),
  pass: fc.constantFrom(undefined, undefined, undefined, 1, 2, 5),
};

const holdTarget = {
  leg: fc.constantFrom(undefined, undefined, 'A', 'B', 'nowhere'),
  barIndex: fc.constantFrom(undefined, undefined, -1, 0, 2, 6),
};

const dropUndefined = <T extends object>(record: T): T =>
  Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined)) as T;

const somePlayers = fc.constantFrom(
  ['Tomas', 'Bea'],
  ['Tomas', 'drums'],
  ['Ines', 'Tomas', 'Bea', 'drums'],
  ['Bea'],
);

/** Cues that change the manner in which the bars are played. */
const someMannerCue: fc.Arbitrary<Cue> = fc.oneof(
  fc.constantFrom<Cue>({ kind: 'stopTime' }, { kind: 'stopTimeOff' }, { kind: 'nextSoloist' }),
  fc
    .record({ kind: fc.constantFrom('up', 'down'), semitones: fc.constantFrom(undefined, 1, 2, 11) })
    .map((fields) => dropUndefined(fields) as Cue),
  fc.constantFrom('half', 'double', 'as written').map((feel) => ({ kind: 'feel', feel }) as Cue),
  fc.constantFrom('down', 'build', 'as written').map((dynamic) => ({ kind: 'dynamic', dynamic }) as Cue),
  fc
    .record({ bars: fc.constantFrom(1, 2, 4, 8), players: somePlayers })
    .map((fields): Cue => ({ kind: 'trade', ...fields })),
  somePlayers.map((players): Cue => ({ kind: 'soloOrder', players })),
);

const someLoop = fc
  .record({
    leg: target.leg,
    from: fc.nat(4),
    bars: fc.constantFrom(0, 1, 1, 3),
    countIn: fc.constantFrom(undefined, false, true),
    stepBpm: fc.constantFrom(undefined, undefined, 7, 60),
    everyRounds: fc.constantFrom(undefined, 1, 2),
    goal: fc.constantFrom(undefined, 60, 200),
  })
  .map(({ bars, goal, ...fields }) => {
    const goalBpm = fields.stepBpm === undefined ? undefined : goal;
    return dropUndefined({ kind: 'loop', ...fields, to: fields.from + bars, goalBpm }) as Cue;
  });

/** Any cue but those that set the place at once. */
export const someLandingCue: fc.Arbitrary<Cue> = fc.oneof(
  { weight: 3, arbitrary: someMannerCue },
  { weight: 2, arbitrary: someLoop },
  fc.constant<Cue>({ kind: 'loopOff' }),
  fc.constant<Cue>({ kind: 'lastChorus' }),
  fc.constant<Cue>({ kind: 'oneMore' }),
  fc.constant<Cue>({ kind: 'goOn' }),
  fc
    .record({ bars: fc.constantFrom(1, 2, 4), times: fc.constantFrom(2, 3) })
    .map((f): Cue => ({ kind: 'tag', ...f })),
  fc
    .record({ bars: fc.integer({ min: 1, max: 9 }), at: fc.constantFrom('phrase', 'pass', 'lastBars') })
    .map((fields) => ({ kind: 'break', ...fields }) as Cue),
  fc.record(target).map((fields) => dropUndefined({ kind: 'goTo', ...fields }) as Cue),
  fc.record(holdTarget).map((fields) => dropUndefined({ kind: 'hold', ...fields }) as Cue),
  {
    weight: 2,
    arbitrary: fc.constantFrom<Cue>({ kind: 'release' }, { kind: 'release', onTap: true }),
  },
  fc
    .record({ bpm: fc.integer({ min: 20, max: 400 }), overBars: fc.constantFrom(undefined, 1, 2, 4) })
    .map((fields) => dropUndefined({ kind: 'tempo', ...fields }) as Cue),
  { weight: 1, arbitrary: fc.constantFrom<Cue>({ kind: 'stop' }, { kind: 'stop', at: 'pass' }) },
  someRoad.map((adopted): Cue => ({ kind: 'adopt', road: adopted })),
);

/** A press lies so long before its call. */
const someHere = fc.record({
  ...target,
  pulse: fc.constantFrom(undefined, undefined, 0, 1, 2.5, 6),
  ago: fc.constantFrom(0, 0, 120, 900, 1500),
});
const someStart = fc.record(target).map((fields) => dropUndefined({ kind: 'start', ...fields }) as Cue);

/** Taps that come as evenly as these, and reach the relay so long after. */
const someTaps = fc.record({
  gapMs: fc.integer({ min: 100, max: 1500 }),
  offMs: fc.array(fc.integer({ min: -60, max: 60 }), { minLength: 1, maxLength: 8 }),
  delayMs: fc.constantFrom(0, 3, 40, 80, 900, 1500),
  downbeat: fc.boolean(),
});

type SomeCall = (typeof calls extends fc.Arbitrary<infer C> ? C : never)[number];

const call = fc.record({
  after: fc.oneof(fc.integer({ min: 0, max: 700 }), fc.integer({ min: 0, max: 12_000 })),
  what: fc.oneof(
    { weight: 12, arbitrary: someLandingCue.map((cue) => ({ cue, ago: 0, takeBack: -1 })) },
    { weight: 2, arbitrary: fc.nat(30).map((takeBack) => ({ cue: null, ago: 0, takeBack })) },
    {
      weight: 1,
      arbitrary: someHere.map(({ ago, ...to }) => ({
        cue: dropUndefined({ kind: 'here', ...to }) as Cue,
        ago,
        takeBack: -1,
      })),
    },
    { weight: 1, arbitrary: someStart.map((cue) => ({ cue, ago: 0, takeBack: -1 })) },
    { weight: 1, arbitrary: fc.constant({ cue: { kind: 'resume' } as Cue, ago: 0, takeBack: -1 }) },
    {
      weight: 2,
      arbitrary: fc.nat(30).map((n) => ({
        cue: { kind: 'itHappened', cue: `c${n + 1}` } as Cue,
        ago: 0,
        takeBack: -1,
      })),
    },
    { weight: 2, arbitrary: someTaps.map((taps) => ({ cue: null, ago: 0, takeBack: -1, taps })) },
  ),
});
const calls = fc.array(call, { maxLength: 14 });

/** A start, as a rule, called or tapped, and then whatever comes, in order of time. */
export const someCalls: fc.Arbitrary<Calls> = fc
  .record({
    start: fc.oneof(
      { weight: 6, arbitrary: fc.constant<Cue>({ kind: 'start' }) },
      { weight: 1, arbitrary: someStart },
      // Counted in by taps.
      { weight: 1, arbitrary: fc.constant<Cue>({ kind: 'tap', tappedAtMs: 1000 }) },
    ),
    calls,
  })
  .map(({ start, calls: list }) => {
    let atMs = 1000;
    const timed: (readonly [number, Calls[number][1]])[] = [[atMs, start]];
    if (start.kind === 'tap') {
      for (const gapMs of [500, 500, 500]) {
        atMs += gapMs;
        timed.push([atMs, { kind: 'tap', tappedAtMs: atMs }]);
      }
    }
    for (const { after, what } of list as readonly SomeCall[]) {
      atMs += after;
      const { cue, ago, takeBack } = what;
      if ('taps' in what) {
        const { gapMs, offMs, delayMs, downbeat } = what.taps;
        for (const off of offMs) {
          atMs += gapMs;
          const tappedAtMs = atMs + off;
          const calledAtMs = Math.max(tappedAtMs + delayMs, timed.at(-1)?.[0] ?? 0);
          timed.push([calledAtMs, { kind: 'tap', tappedAtMs, ...(downbeat ? { downbeat } : {}) }]);
        }
        atMs = Math.max(atMs, timed.at(-1)?.[0] ?? 0);
      } else if (cue?.kind === 'here')
        timed.push([atMs, { ...cue, ...(ago > 0 ? { pressedAtMs: atMs - ago } : {}) }]);
      else if (cue) timed.push([atMs, cue]);
      else timed.push([atMs, { kind: 'takeBack', cue: `c${(takeBack % timed.length) + 1}` }]);
    }
    return timed;
  });
