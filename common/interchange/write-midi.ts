import { bandEvents } from '../band/band-events.ts';
import type { BandSettings } from '../band/band-settings.ts';
import { DRUMS } from '../band/drum-kit.ts';
import type { NoteEvent, Voice } from '../band/note-event.ts';
import type { Metre } from '../chart/bar-music.ts';
import { roadAt } from '../stage/in-force.ts';
import { type Passage, passagesBetween } from '../stage/passages.ts';
import type { Performance } from '../stage/perform.ts';
import type { ComingBar } from '../stage/place.ts';
import { type Key, readKey } from '../theory/key.ts';
import { readingFor, transposeKey } from '../theory/transpose.ts';
import {
  keySignature,
  type MidiEvent,
  type MidiTrack,
  marker,
  midiBytes,
  noteOff,
  noteOn,
  program,
  tempo,
  timeSignature,
  trackName,
} from './midi-bytes.ts';
import { quartersOf, type SpanAt, type TickMap, tickMap } from './tick-map.ts';

/** What is to be written. */
export interface MidiOrder {
  readonly performance: Performance;
  readonly band: BandSettings;
  readonly title: string;
  /** Shared time at which the file ends, if the take goes on for so long. */
  readonly untilMs: number;
  readonly ticksPerQuarter?: number;
}

interface Part {
  readonly voice: Voice;
  readonly name: string;
  readonly channel: number;
  /** Of General MIDI, from 0; null where the channel has its own. */
  readonly program: number | null;
}

/** General MIDI counts channels from 1: percussion is the tenth. */
const PERCUSSION = 9;
const PARTS: readonly Part[] = [
  { voice: 'click', name: 'Click', channel: PERCUSSION, program: null },
  { voice: 'bass', name: 'Bass', channel: 0, program: 32 },
  { voice: 'comping', name: 'Comping', channel: 1, program: 26 },
  { voice: 'drums', name: 'Drums', channel: PERCUSSION, program: null },
];
/** The Brush set of General MIDI 2. */
const BRUSHES = 40;
const BRUSH_KEYS: readonly number[] = [DRUMS.slap, DRUMS.stir];

const TICKS_PER_QUARTER = 480;

/**
 * A take as a Standard MIDI File of format 1: tempo map, time and key signatures and a marker for each section in the
 * first track, then a track a part. The file begins with the first count.
 * Law: read back, every onset lies within half a tick of its event.
 * @example writeMidi({ performance, band: plainBand('swing'), title: 'Slow Ferry', untilMs: 120_000 })
 */
export const writeMidi = (order: MidiOrder): Uint8Array => {
  const { performance, band, title, untilMs, ticksPerQuarter = TICKS_PER_QUARTER } = order;
  const passages = passagesBetween(performance, Number.NEGATIVE_INFINITY, untilMs);
  const map = tickMap(passages, untilMs, ticksPerQuarter);
  const head: MidiEvent = { atTick: 0, bytes: trackName(title) };
  if (!map) return midiBytes({ format: 1, ticksPerQuarter, tracks: [{ events: [head], endTick: 0 }] });
  const events = bandEvents(performance, band, Number.NEGATIVE_INFINITY, untilMs);
  const conductor: MidiTrack = {
    events: [head, ...inOrder([...tempos(map), ...signs(map, passages, performance, ticksPerQuarter)])],
    endTick: map.endTick,
  };
  const parts = PARTS.map((part) => partTrack(part, events, map));
  return midiBytes({ format: 1, ticksPerQuarter, tracks: [conductor, ...parts] });
};

/** By time; what is of one tick stays in its order. */
const inOrder = (events: readonly MidiEvent[]): MidiEvent[] =>
  [...events].sort((a, b) => a.atTick - b.atTick);

const tempos = ({ steps }: TickMap): MidiEvent[] =>
  steps.map(({ tick, usPerQuarter }) => ({ atTick: tick, bytes: tempo(usPerQuarter) }));

const isSameMetre = (a: Metre | null, b: Metre): boolean => a?.upper === b.upper && a.lower === b.lower;

/** Time and key signatures where they change, a time signature too where a bar does not end on its line, markers. */
const signs = (
  { spans }: TickMap,
  passages: readonly Passage[],
  performance: Performance,
  ticksPerQuarter: number,
): MidiEvent[] => {
  const events: MidiEvent[] = [];
  let metre: Metre | null = null;
  let lineTick = 0;
  let signature = '';
  let section = '';
  for (const { tick, span, fromPulse } of spans) {
    const coming = span.kind === 'bar' ? span.coming : nextOf(passages, span);
    if (!coming) continue;
    const { music } = coming.bar.content;
    const barTicks = music.metre.pulses * quartersOf(music.metre) * ticksPerQuarter;
    const isOnLine = (tick - lineTick) % barTicks === 0;
    const beginsBar = span.kind === 'count' || (coming.place.barIndex >= 0 && fromPulse === 0);
    if (!isSameMetre(metre, music.metre) || (beginsBar && !isOnLine)) {
      events.push({ atTick: tick, bytes: timeSignature(music.metre) });
      metre = music.metre;
      lineTick = tick;
    }
    const key = keyOf(coming, performance);
    const bytes = key ? keySignature(...signatureOf(key)) : [];
    if (bytes.length > 0 && bytes.join() !== signature) {
      signature = bytes.join();
      events.push({ atTick: tick, bytes });
    }
    const name = span.kind === 'count' ? 'Count' : sectionName(coming, section);
    if (name !== null) events.push({ atTick: tick, bytes: marker(name) });
    section = span.kind === 'count' ? '' : passName(coming);
  }
  return events;
};

const nextOf = (passages: readonly Passage[], span: SpanAt['span']): ComingBar | null =>
  passages.find((passage) => passage.span === span)?.next ?? null;

/** The key as it sounds in the bar; null where the chart names none. */
const keyOf = ({ bar, startMs, semitones = 0 }: ComingBar, performance: Performance): Key | null => {
  const road = roadAt(performance, startMs);
  const key = readKey(bar.content.music.key) ?? readKey(road.key);
  return key && transposeKey(key, readingFor(readKey(road.key), semitones));
};

const MINOR: readonly string[] = ['minor', 'minor blues', 'aeolian'];

/** Sharps from −7 to 7, and whether they are those of a minor key. */
const signatureOf = ({ fifths, mode }: Key): [number, boolean] => {
  const sharps = fifths > 7 ? fifths - 12 : fifths < -7 ? fifths + 12 : fifths;
  return [sharps, MINOR.includes(mode)];
};

const passName = ({ leg, place }: ComingBar): string => `${leg.id} ${place.pass}`;

/** `Solos 2`, `B`: at the beginning of a pass and of a section; null elsewhere. */
const sectionName = (coming: ComingBar, before: string): string | null => {
  const { leg, place, bar } = coming;
  const letter = bar.content.letter ?? '';
  if (passName(coming) === before) return letter === '' ? null : letter;
  const pass = leg.passes === 1 ? leg.name : `${leg.name} ${place.pass}`;
  return letter === '' ? pass : `${pass}: ${letter}`;
};

/** The notes of a part, each ended before the same key is struck again. */
const partTrack = (
  { voice, name, channel, program: number }: Part,
  all: readonly NoteEvent[],
  map: TickMap,
): MidiTrack => {
  const notes = all.filter((event) => event.voice === voice);
  const struckAgain = new Map<number, number>();
  const events: MidiEvent[] = [];
  let endTick = map.endTick;
  for (const { atMs, lengthMs, midi, velocity } of [...notes].reverse()) {
    const onTick = map.tickAt(atMs);
    const wanted = Number.isFinite(lengthMs) ? map.tickAt(atMs + lengthMs) : map.endTick;
    const again = struckAgain.get(midi) ?? Number.POSITIVE_INFINITY;
    // Two strokes of one key at one tick are one.
    if (again <= onTick) continue;
    struckAgain.set(midi, onTick);
    const offTick = Math.max(onTick + 1, Math.min(wanted, again));
    endTick = Math.max(endTick, offTick);
    events.push({ atTick: onTick, bytes: noteOn(channel, midi, velocity) });
    events.push({ atTick: offTick, bytes: noteOff(channel, midi) });
  }
  const sound = number ?? (notes.some(({ midi }) => BRUSH_KEYS.includes(midi)) ? BRUSHES : null);
  const head = [
    { atTick: 0, bytes: trackName(name) },
    ...(sound === null ? [] : [{ atTick: 0, bytes: program(channel, sound) }]),
  ];
  return { events: [...head, ...events.sort(byTick)], endTick };
};

/** Notes end before others begin. */
const byTick = (a: MidiEvent, b: MidiEvent): number =>
  a.atTick - b.atTick || (a.bytes[0] ?? 0) - (b.bytes[0] ?? 0) || (a.bytes[1] ?? 0) - (b.bytes[1] ?? 0);
