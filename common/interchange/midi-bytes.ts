import type { Metre } from '../chart/bar-music.ts';

/**
 * The bytes of Standard MIDI Files 1.0 (MIDI Manufacturers Association, RP-001).
 */

/** An event of a track: its time in ticks from the beginning, and its bytes with their status. */
export interface MidiEvent {
  readonly atTick: number;
  readonly bytes: readonly number[];
}

export interface MidiFile {
  readonly format: 0 | 1;
  /** Ticks of a quarter note, 1–32767. */
  readonly ticksPerQuarter: number;
  readonly tracks: readonly MidiTrack[];
}

export interface MidiTrack {
  /** In order of time; those of one tick in the order in which they are to be read. */
  readonly events: readonly MidiEvent[];
  readonly endTick: number;
}

const LARGEST_QUANTITY = 0x0fffffff;

/** A number as a variable-length quantity: seven bits a byte, all but the last with the eighth set. 128 → 81 00. */
export const variableLength = (value: number): number[] => {
  if (!Number.isInteger(value) || value < 0 || value > LARGEST_QUANTITY) {
    throw new Error(
      `no variable-length quantity: ${value}, expected a whole number up to ${LARGEST_QUANTITY}`,
    );
  }
  const bytes = [value & 0x7f];
  for (let rest = value >>> 7; rest > 0; rest >>>= 7) bytes.unshift((rest & 0x7f) | 0x80);
  return bytes;
};

const bigEndian = (value: number, length: number): number[] =>
  Array.from({ length }, (_, i) => Math.floor(value / 256 ** (length - 1 - i)) & 0xff);

const ascii = (text: string): number[] => [...text].map((character) => character.charCodeAt(0));

const LONE_HALVES = /[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g;

/** A text as UTF-8. */
const utf8 = (text: string): number[] =>
  [...encodeURIComponent(text.replace(LONE_HALVES, '�')).matchAll(/%([0-9A-F]{2})|./g)].map(([one, hex]) =>
    hex === undefined ? one.charCodeAt(0) : Number.parseInt(hex, 16),
  );

const META = 0xff;
const meta = (type: number, data: readonly number[]): number[] => [
  META,
  type,
  ...variableLength(data.length),
  ...data,
];

export const noteOn = (channel: number, key: number, velocity: number): number[] => [
  0x90 | channel,
  key,
  velocity,
];
export const noteOff = (channel: number, key: number, velocity = 64): number[] => [
  0x80 | channel,
  key,
  velocity,
];
export const program = (channel: number, number: number): number[] => [0xc0 | channel, number];
export const trackName = (text: string): number[] => meta(0x03, utf8(text));
export const marker = (text: string): number[] => meta(0x06, utf8(text));

/** 24 bits: up to 16.7 s a quarter. */
export const SLOWEST_TEMPO_US = 0xffffff;

export const tempo = (usPerQuarter: number): number[] => meta(0x51, bigEndian(usPerQuarter, 3));

/** MIDI clocks (24 a quarter) of a pulse: 36 in 6/8. Then 8 thirty-second notes to a quarter. */
export const timeSignature = ({ upper, lower, compound }: Metre): number[] =>
  meta(0x58, [upper, Math.log2(lower), ((24 * 4) / lower) * (compound ? 3 : 1), 8]);

/** @param sharps −7 (flats) to 7 */
export const keySignature = (sharps: number, isMinor: boolean): number[] =>
  meta(0x59, [sharps & 0xff, isMinor ? 1 : 0]);

const END_OF_TRACK = meta(0x2f, []);

const chunk = (type: string, data: readonly number[]): number[] => [
  ...ascii(type),
  ...bigEndian(data.length, 4),
  ...data,
];

/** A channel message may leave out the status that it shares with the one before it. */
const trackBytes = ({ events, endTick }: MidiTrack): number[] => {
  const data: number[] = [];
  let tick = 0;
  let running = 0;
  for (const { atTick, bytes } of events) {
    data.push(...variableLength(atTick - tick));
    tick = atTick;
    const [status = 0] = bytes;
    data.push(...(status === running ? bytes.slice(1) : bytes));
    running = status < 0xf0 ? status : 0;
  }
  data.push(...variableLength(Math.max(0, endTick - tick)), ...END_OF_TRACK);
  return data;
};

/** The file as bytes. */
export const midiBytes = ({ format, ticksPerQuarter, tracks }: MidiFile): Uint8Array => {
  const header = [...bigEndian(format, 2), ...bigEndian(tracks.length, 2), ...bigEndian(ticksPerQuarter, 2)];
  const chunks = tracks.map((track) => chunk('MTrk', trackBytes(track)));
  const head = chunk('MThd', header);
  const all = new Uint8Array(chunks.reduce((sum, { length }) => sum + length, head.length));
  let at = 0;
  for (const part of [head, ...chunks]) {
    all.set(part, at);
    at += part.length;
  }
  return all;
};
