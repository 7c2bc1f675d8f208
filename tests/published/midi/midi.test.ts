import { describe, expect, it } from 'vitest';
import type { Metre } from '../../../common/chart/bar-music.ts';
import { readMetre } from '../../../common/chart/read-metre.ts';
import {
  type MidiEvent,
  midiBytes,
  noteOff,
  noteOn,
  program,
  tempo,
  timeSignature,
  variableLength,
} from '../../../common/interchange/midi-bytes.ts';
import published from './midi-file.json' with { type: 'json' };

// Sources: SOURCE.md beside this file.
interface Row {
  readonly what: string;
  readonly bytes?: string;
  readonly value?: string;
  readonly microsecondsPerQuarter?: number;
  readonly signature?: string;
}

const rows: readonly Row[] = published.rows;
const hex = (bytes: Iterable<number>): string =>
  [...bytes].map((byte) => byte.toString(16).toUpperCase().padStart(2, '0')).join(' ');
const of = (what: string): readonly Row[] =>
  rows.filter((row) => row.what === what && row.bytes !== undefined);
const metreOf = (text: string): Metre => {
  const metre = readMetre(text);
  if (!metre) throw new Error(`no metre: ${text}`);
  return metre;
};

describe('bytes of the standard', () => {
  it.each(of('variable-length quantity'))(
    '[MIDI-1] the quantity $value is $bytes',
    ({ value = '', bytes }) => {
      expect(hex(variableLength(Number.parseInt(value, 16)))).toBe(bytes);
    },
  );

  it.each(rows.filter((row) => row.microsecondsPerQuarter !== undefined))(
    '[MIDI-1] $microsecondsPerQuarter µs a quarter are $bytes',
    ({ microsecondsPerQuarter = 0, bytes }) => {
      expect(hex(tempo(microsecondsPerQuarter))).toBe(bytes);
    },
  );

  const signatures = [
    ...of('time signature').map(({ signature = '', bytes = '' }) => ({ signature, bytes })),
    ...rows.flatMap(({ what, bytes = '' }) => {
      const signature = /^time signature meta (\d+\/\d+)/.exec(what)?.[1];
      return signature === undefined ? [] : [{ signature, bytes }];
    }),
  ];

  it.each(signatures)('[MIDI-1] $signature is $bytes', ({ signature, bytes }) => {
    expect(signatures.length).toBeGreaterThan(10);
    expect(hex(timeSignature(metreOf(signature)))).toBe(bytes);
  });

  it('[MIDI-1] the example file of the standard, byte for byte', () => {
    const at = (atTick: number, bytes: readonly number[]): MidiEvent => ({ atTick, bytes });
    const events = [
      at(0, timeSignature(metreOf('4/4'))),
      at(0, tempo(500_000)),
      at(0, program(0, 5)),
      at(0, program(1, 46)),
      at(0, program(2, 70)),
      at(0, noteOn(2, 48, 96)),
      at(0, noteOn(2, 60, 96)),
      at(96, noteOn(1, 67, 64)),
      at(192, noteOn(0, 76, 32)),
      at(384, noteOff(2, 48)),
      at(384, noteOff(2, 60)),
      at(384, noteOff(1, 67)),
      at(384, noteOff(0, 76)),
    ];
    const [example] = of('format 0 example file');
    const file = midiBytes({ format: 0, ticksPerQuarter: 96, tracks: [{ events, endTick: 384 }] });
    expect(hex(file)).toBe(example?.bytes);
  });
});
