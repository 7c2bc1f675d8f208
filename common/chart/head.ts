import type { Metre } from './bar-music.ts';
import type { Chart } from './chart.ts';
import { COMMON_TIME, readMetre } from './read-metre.ts';
import { plainText } from './text-line.ts';

export const SLOWEST_BPM = 20;
export const FASTEST_BPM = 400;
export const MOST_COUNT_BARS = 8;

/** A tempo in pulses a minute, 20–400; null where it is none. */
export const readTempo = (text: string): number | null => {
  const match = /^ *(\d{1,4}(?:\.\d{1,3})?) *$/.exec(plainText(text));
  const bpm = match ? Number(match[1]) : Number.NaN;
  return bpm >= SLOWEST_BPM && bpm <= FASTEST_BPM ? bpm : null;
};

/** Bars of count-in, 0–8; null where it is no such number. */
export const readCountBars = (text: string): number | null =>
  /^ *[0-8] *$/.test(plainText(text)) ? Number(plainText(text)) : null;

/** Pulses a minute, 120 where nothing readable is written. */
export const tempoOf = (chart: Chart): number => readTempo(chart.head.tempo ?? '') ?? 120;

/** Bars of count-in, 2 where nothing readable is written. */
export const countOf = (chart: Chart): number => readCountBars(chart.head.count ?? '') ?? 2;

/** The metre the chart begins in, 4/4 where nothing readable is written; groups that don't add up are left out. */
export const metreOf = (chart: Chart): Metre => {
  const text = chart.head.time ?? '';
  return readMetre(text) ?? readMetre(text.replace(/\(.*$/, '')) ?? COMMON_TIME;
};

/** The concert key as typed, '' where none is written. */
export const keyTextOf = (chart: Chart): string => chart.head.key ?? '';
