import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plainBand } from '../../../common/band/band-settings.ts';
import { bassPitch } from '../../../common/band/bass-pitch.ts';
import { beatsOf, cellsOf } from '../../../common/band/beats.ts';
import { DRUMS } from '../../../common/band/drum-kit.ts';
import { DRUM_PATTERNS } from '../../../common/band/drum-patterns.ts';
import { fitRhythm } from '../../../common/band/fit-rhythm.ts';
import { readRhythm } from '../../../common/band/rhythm.ts';
import { RHYTHMS } from '../../../common/band/rhythm-library.ts';
import { playingBy, styleNamed } from '../../../common/band/style.ts';
import { plainVoicing } from '../../../common/band/voicing.ts';
import { COMMON_TIME, readMetre } from '../../../common/chart/read-metre.ts';
import { readChordSymbol } from '../../../common/theory/chord-symbol.ts';
import { allEvents, barTimes, chart, eventsOfBar, inBar, pitches, placesOf, played } from './support-band.ts';

const metre = (text: string) => readMetre(text) ?? COMMON_TIME;
const CLICK = plainBand('').click;

describe('the count-in', () => {
  it.each([
    ['4/4', 2, [0, 2, 4, 5, 6, 7]],
    ['4/4', 1, [0, 1, 2, 3]],
    ['3/4', 2, [0, 3, 4, 5]],
    ['5/4', 1, [0, 1, 2, 3, 4]],
  ])(
    '[BAND-15] in %s over %i bars clicks as it is counted, and no louder than the band',
    (time, bars, counted) => {
      const road = { ...chart('| C7 |', { head: `time: ${time}` }), countBars: bars };
      const one = played(road);
      const { startMs } = barTimes(one.performance, 0);
      const count = allEvents(one, startMs);
      expect(placesOf(count, 'click', 600)).toEqual(counted);
      const band = eventsOfBar(one, 0).filter(({ voice }) => voice !== 'click');
      const loudest = Math.max(...band.map(({ velocity }) => velocity));
      for (const { velocity } of count) expect(velocity).toBeLessThanOrEqual(loudest);
    },
  );
});

describe('the click', () => {
  const click = (more: Partial<typeof CLICK>, time = '4/4') => {
    const one = played(chart('| C7 |', { head: `time: ${time}` }), { click: { ...CLICK, ...more } });
    return { one, events: eventsOfBar(one, 0).filter(({ voice }) => voice === 'click') };
  };

  it('[BAND-16] marks beat one, then the groups, then beats', () => {
    const { events } = click({}, '5/4 (3+2)');
    const [one, two, three, four, five] = events.map(({ velocity }) => velocity) as [
      number,
      number,
      number,
      number,
      number,
    ];
    expect(events).toHaveLength(5);
    expect(one).toBeGreaterThan(four);
    expect(four).toBeGreaterThan(two);
    expect([two, three]).toEqual([five, five]);
    expect(new Set(click({ accents: false }).events.map(({ velocity }) => velocity)).size).toBe(1);
  });

  it('[BAND-16] clicks two and four alone, and the parts of beats, softer', () => {
    expect(inBar(click({ beats: 'two and four' }).one, 0, 'click')).toEqual([1, 3]);
    expect(inBar(click({ parts: 3 }, '2/4').one, 0, 'click')).toEqual([0, 0.333, 0.667, 1, 1.333, 1.667]);
    const { events } = click({ parts: 2 });
    const parts = events.filter((_, i) => i % 2 === 1);
    expect(Math.max(...parts.map(({ velocity }) => velocity))).toBeLessThan(
      Math.min(...events.filter((_, i) => i % 2 === 0).map(({ velocity }) => velocity)),
    );
  });

  it('[BAND-16] stays on the beats of the metre when the feel is halved', () => {
    const one = played(chart('| C7 ||\n| C7 |'), { calls: [[2700, { kind: 'feel', feel: 'half' }]] });
    expect(inBar(one, 1, 'click')).toEqual([0, 1, 2, 3]);
  });
});

describe('beats', () => {
  const lengths = (time: string, speed: 'half' | 'plain' | 'double' = 'plain') => {
    const { pulses } = metre(time);
    return cellsOf(beatsOf(metre(time), pulses, speed)).map(({ beats }) =>
      beats.map((beat) => beat.lengthPulses),
    );
  };

  it.each([
    [
      '4/4',
      [
        [1, 1],
        [1, 1],
      ],
    ],
    ['3/4', [[1, 1, 1]]],
    [
      '5/4',
      [
        [1, 1, 1],
        [1, 1],
      ],
    ],
    [
      '5/4 (2+3)',
      [
        [1, 1],
        [1, 1, 1],
      ],
    ],
    [
      '7/4',
      [
        [1, 1],
        [1, 1],
        [1, 1, 1],
      ],
    ],
    ['7/8', [[2, 2, 3]]],
    ['7/8 (3+2+2)', [[3], [2], [2]]],
    [
      '2/2',
      [
        [0.5, 0.5],
        [0.5, 0.5],
      ],
    ],
    ['6/8', [[1, 1]]],
    [
      '12/8',
      [
        [1, 1],
        [1, 1],
      ],
    ],
  ])('[BAND-17] %s is felt in twos and threes', (time, expected) => {
    expect(lengths(time)).toEqual(expected);
  });

  it('[BAND-17] in any metre and at any speed the beats fill the bar', () => {
    const someMetre = fc
      .tuple(fc.integer({ min: 1, max: 21 }), fc.constantFrom(1, 2, 4, 8, 16))
      .map(([upper, lower]) => metre(`${upper}/${lower}`));
    fc.assert(
      fc.property(
        someMetre,
        fc.constantFrom('half', 'plain', 'double'),
        fc.constantFrom(0, 0.5, 3),
        (time, speed, more) => {
          const pulses = time.pulses + more;
          const beats = beatsOf(time, pulses, speed as 'half' | 'plain' | 'double');
          let at = 0;
          for (const { atPulse, lengthPulses } of beats) {
            expect(atPulse).toBeCloseTo(at, 9);
            expect(lengthPulses).toBeGreaterThan(0);
            at += lengthPulses;
          }
          expect(at).toBeCloseTo(pulses, 9);
          expect(cellsOf(beats).flatMap((cell) => cell.beats)).toEqual(beats);
          for (const { beats: inCell } of cellsOf(beats)) expect(inCell.length).toBeLessThanOrEqual(3);
        },
      ),
    );
  });

  it.each(Object.keys(DRUM_PATTERNS))(
    '[BAND-17] the drums play %s in every metre from its first beat on',
    (name) => {
      for (const time of [
        '4/4',
        '3/4',
        '5/4 (3+2)',
        '7/8',
        '2/2',
        '6/8',
        '9/8',
        '11/8 (3+3+3+2)',
        '1/4',
        '15/16',
      ]) {
        const one = played(chart('| C7 | C7 |', { head: `time: ${time}` }), { feel: name, fills: false });
        expect(styleNamed(name)?.drums).toBe(name);
        const { startMs, endMs } = barTimes(one.performance, 0);
        const drums = eventsOfBar(one, 0).filter(({ voice }) => voice === 'drums');
        expect(drums[0]?.atMs).toBe(startMs);
        for (const { atMs } of drums) expect(atMs).toBeLessThan(endMs);
      }
    },
  );

  it('[BAND-17] the ride cymbal of a swing in five as 3 + 2', () => {
    const one = played(chart('| C7 |', { head: 'time: 5/4 (3+2)' }), { fills: false, swing: 2 });
    const ride = eventsOfBar(one, 0).filter(({ midi }) => midi === DRUMS.ride);
    // One, two, the and of two, in each group. Common practice, no source.
    expect(placesOf(ride, 'drums', 2600 + 500)).toEqual([0, 1, 1.667, 2, 3, 4, 4.667]);
  });
});

describe('the bass', () => {
  it('[BAND-18] walks: a note on every beat, each chord from its root, a note that leads to the next', () => {
    const one = played(chart('| Dm7 | G7 | Cmaj7 | A7 |', { head: 'key: C' }));
    const bars = [0, 1, 2, 3].map((index) => pitches(eventsOfBar(one, index), 'bass'));
    for (const bar of bars) expect(bar).toHaveLength(4);
    expect(bars.map(([first = 0]) => first % 12)).toEqual([2, 7, 0, 9]);
    bars.slice(0, 3).forEach((bar, i) => {
      const distance = Math.abs((bar[3] ?? 0) - (bars[i + 1]?.[0] ?? 0));
      // A step or a semitone, or the fifth above the goal, wherever that lies.
      expect([1, 2, 5, 7]).toContain(distance);
    });
  });

  it('[BAND-2] leads to the next chord on the last pulse only, however long its beats', () => {
    const road = chart('| C7 ||\n| F7 ||\n| B7 |');
    const leg = road.legs[0]?.id ?? '';
    const half = [1000, { kind: 'feel', feel: 'half' }] as const;
    const bass = (calls: Parameters<typeof played>[1]) =>
      eventsOfBar(played(road, calls), 0).filter(({ voice }) => voice === 'bass');
    // Called in the third beat: nobody could know before.
    const straightOn = bass({ calls: [half] });
    const goesTo = bass({ calls: [half, [3700, { kind: 'goTo', leg, barIndex: 2 }]] });
    expect(straightOn.map(({ atMs }) => atMs - 2600)).toEqual([0, 1000, 1500]);
    expect(goesTo.slice(0, 2).map(({ midi }) => midi)).toEqual(
      straightOn.slice(0, 2).map(({ midi }) => midi),
    );
    expect(goesTo[2]?.midi).not.toBe(straightOn[2]?.midi);
  });

  it('[BAND-18] lies under a slash chord with the note after the slash', () => {
    const one = played(chart('| C7/E | F7/A |'));
    expect([0, 1].map((index) => (pitches(eventsOfBar(one, index), 'bass')[0] ?? 0) % 12)).toEqual([4, 9]);
  });

  it('[BAND-18] in two has root and fifth, the chord’s own fifth', () => {
    const one = played(chart('| Dm7b5 | G7 |'), { bass: 'two' });
    expect(pitches(eventsOfBar(one, 0), 'bass').map((midi) => midi % 12)).toEqual([2, 8]);
    expect(pitches(eventsOfBar(one, 1), 'bass').map((midi) => midi % 12)).toEqual([7, 2]);
  });

  it('[BAND-18] begins every chord with its bass, in any manner', () => {
    for (const bass of ['two', 'bossa', 'latin', 'funk', 'waltz', 'eighths', 'roots', 'walking'] as const) {
      const one = played(chart('| Dm7 G7 | C7 F7 Bb7 Eb7 |'), { bass, feel: 'straight 8ths', fills: false });
      const at = (index: number, pulse: number) => {
        const { startMs } = barTimes(one.performance, index);
        const note = eventsOfBar(one, index).find(
          (event) => event.voice === 'bass' && event.atMs === startMs + pulse * 500,
        );
        return (note?.midi ?? -1) % 12;
      };
      expect([at(0, 0), at(0, 2), at(1, 0), at(1, 1), at(1, 2), at(1, 3)]).toEqual([2, 7, 0, 5, 10, 3]);
    }
  });

  it('[BAND-18] finds the same octave for a chord from both sides of the bar line', () => {
    const symbol = readChordSymbol('F7');
    if (!symbol) throw new Error('F7 is a chord');
    const chord = { symbol, tones: [5], scale: [5], key: { tonic: 'F', mode: 'major', fifths: -1 } as const };
    const found = Array.from({ length: 64 }, (_, bar) => bassPitch(chord, 9, bar, 0));
    expect(new Set(found)).toEqual(new Set([29, 41]));
    expect(Array.from({ length: 64 }, (_, bar) => bassPitch(chord, 9, bar, 0))).toEqual(found);
  });
});

describe('comping', () => {
  it('[BAND-19] every chord is heard, whatever the rhythm', () => {
    const comping = readRhythm('1', COMMON_TIME).rhythm;
    const one = played(chart('| C7 F7 Bb7 Eb7 |'), { comping, feel: 'straight 8ths' });
    expect(inBar(one, 0, 'comping')).toEqual([0, 1, 2, 3]);
  });

  it('[BAND-19] a stroke on the off-beat before a chord plays that chord', () => {
    const comping = readRhythm('1 2& 4&', COMMON_TIME).rhythm;
    const one = played(chart('| C7 F7 | Bb7 |'), { comping, feel: 'straight 8ths' });
    const at = (pulse: number) =>
      pitches(
        eventsOfBar(one, 0).filter(({ atMs }) => atMs === 2600 + pulse * 500),
        'comping',
      );
    const voiced = (text: string) =>
      plainVoicing(readChordSymbol(text) as NonNullable<ReturnType<typeof readChordSymbol>>);
    expect(at(0)).toEqual(voiced('C7'));
    expect(at(1.5)).toEqual(voiced('F7'));
    expect(at(3.5)).toEqual(voiced('Bb7'));
  });

  it('[BAND-19] plays the voicing that it is given', () => {
    const one = played(chart('| C7 |'), { voicing: () => [48, 64, 70] });
    expect(new Set(pitches(eventsOfBar(one, 0), 'comping'))).toEqual(new Set([48, 64, 70]));
  });

  it('[BAND-19] tells where the chord is for which it wants notes, of the next bar where that is anticipated', () => {
    const comping = readRhythm('1 2& 4&', COMMON_TIME).rhythm;
    const one = played(chart('| C7 F7 | Bb7 |'), {
      comping,
      feel: 'straight 8ths',
      voicing: (_, { coming, cell }) => [60 + 10 * coming.place.barIndex + cell],
    });
    expect(pitches(eventsOfBar(one, 0), 'comping')).toEqual([60, 61, 70]);
  });

  it('[BAND-4] the plain voicing has third and seventh, and no note that the symbol does not name', () => {
    // Shell voicings leave the fifth out; guide tones are third and seventh. Common practice, no source.
    const classes = (text: string) => {
      const symbol = readChordSymbol(text);
      return symbol ? plainVoicing(symbol).map((midi) => midi % 12) : [];
    };
    expect(new Set(classes('G13'))).toEqual(new Set([11, 5, 4]));
    expect(classes('C7')).toContain(4);
    expect(classes('C7')).toContain(10);
    expect(classes('Fm')).toEqual(expect.arrayContaining([5, 8, 0]));
    expect(new Set(classes('E5'))).toEqual(new Set([4, 11]));
  });
});

describe('fitting', () => {
  const fitted = (text: string, time: string, from = '4/4', turn = 0) => {
    const { rhythm } = readRhythm(text, metre(from));
    const to = metre(time);
    return fitRhythm(rhythm, to, beatsOf(to, to.pulses), { turn, plain: true });
  };

  it.each([
    ['1 2&', '4/4', [0, 1.5]],
    ['1 2&', '5/4 (3+2)', [0, 1.5, 3, 4.5]],
    ['1 2&', '3/4', [0, 1.5]],
    ['1 2 3 4', '2/4', [0, 1]],
    ['1 2&', '6/4', [0, 1.5, 3, 4.5]],
    ['1 3', '12/8', [0, 2]],
    ['1 2&', '6/8', [0, 1 + 2 / 3]],
    ['1 2', '7/8', [0, 2]],
  ])('[BAND-25] %s in %s', (text, time, expected) => {
    const found = fitted(text, time);
    expect(found).toHaveLength(expected.length);
    found.forEach((place, i) => {
      expect(place).toBeCloseTo(expected[i] ?? Number.NaN, 9);
    });
  });

  it('[BAND-25] a rhythm for this very metre is taken as it is, and its bars take turns', () => {
    expect(fitted('1 3& 5 | 2', '5/4 (3+2)', '5/4 (3+2)')).toEqual([0, 2.5, 4]);
    expect(fitted('1 3& 5 | 2', '5/4 (3+2)', '5/4 (3+2)', 1)).toEqual([1]);
  });
});

describe('feels', () => {
  it('[BAND-20] sixteenths are left out where a beat is too short for them', () => {
    const hats = (bpm: number) => {
      const one = played({ ...chart('| C7 |'), tempoBpm: bpm }, { feel: 'funk', fills: false });
      return eventsOfBar(one, 0).filter(({ midi }) => midi === DRUMS.closedHat).length;
    };
    expect(hats(100)).toBe(16);
    expect(hats(220)).toBe(8);
  });

  it('[BAND-21] the ride follows the tempo in a swing, a shuffle stays at 2 : 1, straight is even, and it can be set', () => {
    const off = (feel: string, bpm: number, swing: number | null = null) => {
      const one = played({ ...chart('| C7 | C7 |'), tempoBpm: bpm }, { feel, swing, fills: false });
      const { startMs, endMs } = barTimes(one.performance, 0);
      const beatMs = (endMs - startMs) / 4;
      const drums = eventsOfBar(one, 0).filter(({ voice }) => voice === 'drums');
      const parts = drums
        .map(({ atMs }) => ((atMs - startMs) / beatMs) % 1)
        .filter((part) => part > 0.01 && part < 0.99);
      return Math.round((parts[0] ?? Number.NaN) * 1000) / 1000;
    };
    expect(off('swing', 100)).toBe(0.778);
    expect(off('swing', 300)).toBe(0.5);
    expect(off('shuffle', 100)).toBe(0.667);
    expect(off('bossa', 100)).toBe(0.5);
    expect(off('swing', 100, 1.5)).toBe(0.6);
  });

  it('[BAND-21] pulses that are dotted or short are not swung', () => {
    const seven = played(chart('| C7 |', { head: 'time: 7/8' }), { bass: 'eighths', fills: false });
    for (const place of inBar(seven, 0, 'bass')) expect(Number.isInteger(place * 2)).toBe(true);
    const twelve = played(chart('| C7 |', { head: 'time: 12/8' }), { bass: 'eighths', fills: false });
    expect(inBar(twelve, 0, 'bass')).toContain(0.667);
  });

  it('[BAND-11] feels are known by their words, swing where nobody says', () => {
    expect(
      ['Medium Swing', 'slow straight 16ths', 'Bossa Nova', 'jazz waltz', ''].map(
        (text) => styleNamed(text)?.name,
      ),
    ).toEqual(['swing', 'sixteenths', 'bossa', 'waltz', undefined]);
    expect(playingBy('', [])).toMatchObject({ style: { name: 'swing' }, speed: 'plain', motion: null });
    for (const feel of Object.keys(RHYTHMS)) expect(styleNamed(feel)).not.toBeNull();
  });
});
