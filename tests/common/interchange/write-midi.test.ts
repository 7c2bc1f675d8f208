import fc from 'fast-check';
import { type MidiData, type MidiEvent, parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { bandEvents } from '../../../common/band/band-events.ts';
import { plainBand } from '../../../common/band/band-settings.ts';
import type { NoteEvent, Voice } from '../../../common/band/note-event.ts';
import { writeMidi } from '../../../common/interchange/write-midi.ts';
import { perform } from '../../../common/stage/perform.ts';
import { clockOf, type Timed, timed } from '../../support/midi-clock.ts';
import { chart, type Played, played, someBandRoad, someFeel } from '../band/support-band.ts';
import { someCalls } from '../stage/support-random.ts';
import { take } from '../stage/support-road.ts';

const TRACKS: readonly Voice[] = ['click', 'bass', 'comping', 'drums'];

const write = ({ performance, band }: Played, untilMs = 60_000, ticksPerQuarter = 480) => {
  const bytes = writeMidi({ performance, band, title: 'Slow Ferry', untilMs, ticksPerQuarter });
  return parseMidi(bytes);
};

const eventsOf = (data: MidiData, track: number): Timed<MidiEvent>[] => timed(data.tracks[track] ?? []);
const typed = (data: MidiData, type: MidiEvent['type']) =>
  eventsOf(data, 0).filter(({ event }) => event.type === type);

/** Length of a tick in ms around a tick. */
const tickMs = (clock: (tick: number) => number, tick: number): number =>
  Math.max(clock(tick + 1) - clock(tick), tick > 0 ? clock(tick) - clock(tick - 1) : 0);

const onsetsAgree = (one: Played, untilMs: number, ticksPerQuarter: number): void => {
  const data = write(one, untilMs, ticksPerQuarter);
  const clock = clockOf(data);
  const all = bandEvents(one.performance, one.band, Number.NEGATIVE_INFINITY, untilMs);
  const startMs = startOf(one);
  TRACKS.forEach((voice, i) => {
    const expected = all.filter((event) => event.voice === voice);
    const found = eventsOf(data, i + 1).flatMap(({ tick, event }) =>
      event.type === 'noteOn' ? [{ tick, midi: event.noteNumber }] : [],
    );
    for (const { atMs, midi } of expected) {
      const near = found.filter((note) => note.midi === midi).map(({ tick }) => tick);
      const off = Math.min(
        ...near.map((tick) => Math.abs(clock(tick) - (atMs - startMs)) / tickMs(clock, tick)),
      );
      expect(off).toBeLessThanOrEqual(0.5 + 1e-3);
    }
    expect(found.length).toBeLessThanOrEqual(expected.length);
  });
};

/** When the first count, or the first bar, begins to move. */
const startOf = ({ performance }: Played): number => {
  const { pieces } = performance.run.log;
  const begins = pieces.map(({ fromMs, tempo }, i) => {
    const ms = Math.max(fromMs, tempo?.fromMs ?? Number.POSITIVE_INFINITY);
    return ms < (pieces[i + 1]?.fromMs ?? Number.POSITIVE_INFINITY) ? ms : Number.POSITIVE_INFINITY;
  });
  return begins.find(Number.isFinite) ?? 0;
};

describe('a take as a MIDI file', () => {
  it('[MIDI-2] has what all share in the first track, and a track a part', () => {
    const data = write(played(chart('| C7 | F7 |')));
    expect(data.header).toMatchObject({ format: 1, numTracks: 5, ticksPerBeat: 480 });
    const names = data.tracks.map((track) => track.find((event) => event.type === 'trackName'));
    expect(names.map((event) => (event?.type === 'trackName' ? event.text : ''))).toEqual([
      'Slow Ferry',
      'Click',
      'Bass',
      'Comping',
      'Drums',
    ]);
    const channels = data.tracks.map((track) => [
      ...new Set(track.flatMap((event) => ('channel' in event ? [event.channel] : []))),
    ]);
    // Percussion is on channel 10, counted from 1 (General MIDI).
    expect(channels).toEqual([[], [9], [0], [1], [9]]);
    for (const track of data.tracks) expect(track.at(-1)?.type).toBe('endOfTrack');
  });

  it('[MIDI-3] a steady tempo puts bars on their lines and off-beats where the swing has them', () => {
    const data = write(played(chart('| C7 | F7 |'), { swing: 2, fills: false }));
    const ride = eventsOf(data, 4).filter(({ event }) => event.type === 'noteOn' && event.noteNumber === 51);
    const bar = 4 * 480;
    // After a count-in of one bar; an off-beat of 2 : 1 is 320 ticks into its quarter (MusicXML 4.0, swing).
    expect(ride.slice(0, 6).map(({ tick }) => tick - bar)).toEqual([0, 480, 800, 960, 1440, 1760]);
    expect(typed(data, 'setTempo')).toHaveLength(1);
  });

  it('[MIDI-3] onsets are those of the events, whatever is called', () => {
    const ticks = fc.constantFrom(96, 480, 960);
    fc.assert(
      fc.property(someBandRoad, someCalls, someFeel, ticks, (road, calls, feel, perQuarter) => {
        onsetsAgree(
          { performance: perform(take(road, calls)), band: plainBand(feel, 7) },
          45_000,
          perQuarter,
        );
      }),
      { numRuns: 60, interruptAfterTimeLimit: 10_000 },
    );
  });

  it('[MIDI-3] rounding of the tempo does not add up in ten minutes', () => {
    // 88 a minute is no whole number of microseconds: 681818.18.
    const road = { ...chart('| C7 | F7 |', { road: 'Head: A x200' }), tempoBpm: 88 };
    const one = played(road, { fills: false });
    const untilMs = 600_000;
    const data = write(one, untilMs);
    const clock = clockOf(data);
    const bass = eventsOf(data, 2).filter(({ event }) => event.type === 'noteOn');
    const wanted = bandEvents(one.performance, one.band, 0, untilMs).filter(({ voice }) => voice === 'bass');
    const lastMs = (wanted.at(-1)?.atMs ?? 0) - startOf(one);
    expect(lastMs).toBeGreaterThan(590_000);
    expect(Math.abs(clock(bass.at(-1)?.tick ?? 0) - lastMs)).toBeLessThan(60_000 / 88 / 480 / 2 + 0.01);
  });

  it('[MIDI-3] a tap that brings the first count forward moves the beginning of the file', () => {
    const one = played(chart('| C7 | F7 |'), { calls: [[425, { kind: 'tap', tappedAtMs: 425 }]] });
    expect(startOf(one)).toBeLessThan(600);
    onsetsAgree(one, 10_000, 96);
  });

  it('[MIDI-3] a ramp of the tempo is written in steps', () => {
    const road = chart('| C7 | F7 | Bb7 | Eb7 |', { road: 'Head: A x4' });
    const one = played(road, { calls: [[4000, { kind: 'tempo', bpm: 60, overBars: 2 }]] });
    const tempos = typed(write(one), 'setTempo').map(({ event }) =>
      event.type === 'setTempo' ? event.microsecondsPerBeat : 0,
    );
    expect(tempos.length).toBeGreaterThan(30);
    expect(tempos[0]).toBe(500_000);
    expect(tempos.at(-1)).toBe(1_000_000);
    onsetsAgree(one, 60_000, 480);
  });
});

describe('signatures and markers', () => {
  const signatures = (data: MidiData) =>
    typed(data, 'timeSignature').map(({ tick, event }) =>
      event.type === 'timeSignature' ? `${tick / 480} ${event.numerator}/${event.denominator}` : '',
    );

  it('[MIDI-4] a time signature where the metre changes', () => {
    expect(
      signatures(write(played(chart('| C7 | "3/4" F7 | G7 |\n[B]\n| C7 |', { road: 'Head: A B' })))),
    ).toEqual(['0 4/4', '8 3/4', '14 4/4']);
  });

  it('[MIDI-4] and again where a bar did not end on its line', () => {
    const road = chart('| C7 | F7 | G7 | C7 |');
    const leg = road.legs[0]?.id ?? '';
    const one = played(road, { calls: [[3600, { kind: 'here', leg, barIndex: 2 }]] });
    expect(signatures(write(one))).toEqual(['0 4/4', '6 4/4']);
  });

  it('[MIDI-4] a pulse of 6/8 is a dotted quarter', () => {
    const one = played(chart('| C7 | F7 |', { head: 'time: 6/8' }));
    const data = write(one);
    expect(signatures(data)).toEqual(['0 6/8']);
    const bass = eventsOf(data, 2).filter(({ event }) => event.type === 'noteOn');
    expect(bass[0]?.tick).toBe(2 * 720);
    // 120 dotted quarters a minute are 180 quarters.
    const tempos = typed(data, 'setTempo').map(({ event }) =>
      event.type === 'setTempo' ? event.microsecondsPerBeat : 0,
    );
    for (const us of tempos) expect(Math.abs(us - 1_000_000 / 3)).toBeLessThan(1);
  });

  it('[MIDI-4] a key signature where the key changes, by a word and by a modulation', () => {
    const road = chart('| C7 | F7 | "key F" Bb7 | C7 |', { head: 'key: C', road: 'Head: A x2' });
    const one = played(road, { calls: [[3000, { kind: 'up', semitones: 3 }]] });
    const keys = typed(write(one), 'keySignature').map(({ event }) =>
      event.type === 'keySignature' ? `${event.key} ${event.scale}` : '',
    );
    // C and F, then E♭ and A♭: the circle of fifths.
    expect(keys).toEqual(['0 0', '-1 0', '-3 0', '-4 0']);
    const minor = typed(write(played(chart('| Dm7 |', { head: 'key: D minor' }))), 'keySignature');
    expect(minor.map(({ event }) => (event.type === 'keySignature' ? [event.key, event.scale] : []))).toEqual(
      [[-1, 1]],
    );
  });

  it('[MIDI-5] a marker at the count-in, at every pass and every section', () => {
    const road = chart('| C7 | F7 |\n[B]\n| G7 | C7 |', { road: 'Head: A B x2' });
    const markers = typed(write(played(road)), 'marker').map(({ tick, event }) =>
      event.type === 'marker' ? `${tick / 1920} ${event.text}` : '',
    );
    expect(markers).toEqual(['0 Count', '1 Head 1: A', '3 B', '5 Head 2: A', '7 B']);
  });
});

describe('holds and notes', () => {
  it('[MIDI-6] a hold is a slow rest of its bar, and the next bar lies on its line', () => {
    const road = chart('| C7 | "hold" F7 | G7 |');
    const one = played(road, { calls: [[12_000, { kind: 'release' }]] });
    const data = write(one);
    const clock = clockOf(data);
    expect(clock(3 * 1920) - clock(2 * 1920)).toBeCloseTo(12_500 - 4600, 1);
    expect(typed(data, 'timeSignature')).toHaveLength(1);
    onsetsAgree(one, 60_000, 480);
  });

  it('[MIDI-6] a long hold has more ticks, and one that nobody releases lasts to the end', () => {
    const long = played(chart('| C7 | "hold" F7 | G7 |', { head: 'time: 1/4' }), {
      calls: [[50_000, { kind: 'release' }]],
    });
    onsetsAgree(long, 60_000, 480);
    const open = write(played(chart('| C7 | "hold" F7 |')), 30_000);
    const ends = eventsOf(open, 2).filter(({ event }) => event.type === 'noteOff');
    expect(clockOf(open)(ends.at(-1)?.tick ?? 0)).toBeCloseTo(30_000 - 600, 0);
  });

  it('[MIDI-7] every note that begins ends, before its key begins again', () => {
    fc.assert(
      fc.property(someBandRoad, someCalls, someFeel, (road, calls, feel) => {
        const data = write({ performance: perform(take(road, calls)), band: plainBand(feel, 7) }, 45_000);
        data.tracks.forEach((_, track) => {
          const open = new Map<number, number>();
          for (const { tick, event } of eventsOf(data, track)) {
            if (event.type === 'noteOn') {
              expect(open.has(event.noteNumber)).toBe(false);
              open.set(event.noteNumber, tick);
            } else if (event.type === 'noteOff') {
              expect(tick).toBeGreaterThan(open.get(event.noteNumber) ?? Number.NaN);
              open.delete(event.noteNumber);
            }
          }
          expect(open.size).toBe(0);
        });
      }),
      { numRuns: 60, interruptAfterTimeLimit: 10_000 },
    );
  });

  it('[MIDI-7] names may be any text', () => {
    const { performance, band } = played(chart('| C7 |'));
    for (const title of ['', 'Größe – 5€', 'x\uD800y', '😀'.repeat(100)]) {
      const data = parseMidi(writeMidi({ performance, band, title, untilMs: 5000 }));
      const [name] = data.tracks[0] ?? [];
      const bytes = Uint8Array.from(
        name?.type === 'trackName' ? [...name.text].map((one) => one.charCodeAt(0)) : [],
      );
      expect(new TextDecoder().decode(bytes)).toBe(title.replace('\uD800', '�'));
    }
  });

  it('[MIDI-2] a take that has not begun is a file without notes', () => {
    const waiting = { performance: perform(take(chart('| C7 |'), [])), band: plainBand('') };
    const data = write(waiting);
    expect(data.tracks).toHaveLength(1);
    const noted: readonly NoteEvent[] = bandEvents(waiting.performance, waiting.band, 0, 60_000);
    expect(noted).toEqual([]);
  });
});
