import { seededRandom } from '../support/seeded-random.ts';

/**
 * Drummers made by a model, in four: where their beats truly are, and what the relay hears of their taps. A tap lies
 * beside its beat by 20 ms (standard deviation); 5 % are missed, 2 % come twice, the second up to 0.4 pulses later;
 * each reaches the relay 3–80 ms late, in order. The drummer comes in within 30 ms of the board's first beat, at a
 * tempo within 3 % of the board's.
 */
export interface Drummer {
  readonly name: string;
  /** How fast the next beat comes, ms, as the beats go: `pulseMs` is the one before. */
  readonly next: (beat: number, pulseMs: number, random: () => number) => number;
  /** Index of the beat from which the tempo is another; absent where it does not change at once. */
  readonly changesAt?: number;
}

export interface Drummed {
  /** The board's tempo at the start, and when its first beat is. */
  readonly tempoBpm: number;
  readonly startMs: number;
  /** Beats as the drummer feels them. */
  readonly beatsMs: readonly number[];
  readonly taps: readonly { readonly tappedAtMs: number; readonly heardAtMs: number }[];
}

export const BEATS = 192;
const HAND_MS = 20;
const CHANGE_AT = 64;

/** Box & Muller 1958. */
const gauss = (random: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

const changing = (by: number): Drummer['next'] => {
  return (beat, pulseMs) => (beat === CHANGE_AT ? pulseMs / (1 + by) : pulseMs);
};

export const DRUMMERS: readonly Drummer[] = [
  { name: 'constant', next: (_, pulseMs) => pulseMs },
  { name: 'drifting ±0.1 % a beat', next: (_, pulseMs, random) => pulseMs * (1 + 0.001 * gauss(random)) },
  {
    name: 'speeding up 10 % over 32 bars',
    next: (beat, pulseMs) => (beat < 128 ? pulseMs / 1.1 ** (1 / 128) : pulseMs),
  },
  { name: 'suddenly 8 % faster', next: changing(0.08), changesAt: CHANGE_AT },
  { name: 'suddenly 8 % slower', next: changing(-0.08), changesAt: CHANGE_AT },
];

/** The drummer plays, tapping each `every`th beat. The same seed gives the same taps. */
export const drum = (drummer: Drummer, every: number, seed: number): Drummed => {
  const random = seededRandom(seed);
  const between = (from: number, to: number) => from + (to - from) * random();
  const tempoBpm = Math.round(between(80, 180));
  const startMs = 5000;
  let pulseMs = (60_000 / tempoBpm) * between(0.97, 1.03);
  const beatsMs = [startMs + between(-30, 30)];
  for (let beat = 1; beat < BEATS; beat += 1) {
    beatsMs.push((beatsMs[beat - 1] as number) + pulseMs);
    pulseMs = drummer.next(beat, pulseMs, random);
  }
  const tapped: number[] = [];
  for (let beat = 0; beat < BEATS; beat += every) {
    if (random() < 0.05) continue;
    const tappedAtMs = (beatsMs[beat] as number) + HAND_MS * gauss(random);
    tapped.push(tappedAtMs);
    if (random() < 0.02) tapped.push(tappedAtMs + between(30, 0.4 * pulseMs));
  }
  let lastMs = 0;
  const taps = tapped.map((tappedAtMs) => {
    lastMs = Math.max(lastMs, tappedAtMs + between(3, 80));
    return { tappedAtMs, heardAtMs: lastMs };
  });
  return { tempoBpm, startMs, beatsMs, taps };
};
