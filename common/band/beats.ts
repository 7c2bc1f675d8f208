import type { Metre } from '../chart/bar-music.ts';

/** A beat as the rhythm section feels it. */
export interface Beat {
  readonly atPulse: number;
  readonly lengthPulses: number;
  /** It divides in two or in three. */
  readonly parts: 2 | 3;
  /** First beat of a group: of the bar's halves in 4/4, of the three and the two in 5/4 (3+2). */
  readonly opensGroup: boolean;
}

/** How fast a bar is felt: half-time has beats twice as long, double-time half as long. */
export type Speed = 'half' | 'plain' | 'double';

/** So many beats in groups where the metre says nothing: fours; threes in 3, 6, 9; 5 is 3 + 2, 7 is 4 + 3. */
export const usualGroups = (beats: number): readonly number[] => {
  if (beats <= 4) return beats > 0 ? [beats] : [];
  if (beats === 5) return [3, 2];
  if (beats === 7) return [4, 3];
  if (beats % 4 === 0) return Array.from({ length: beats / 4 }, () => 4);
  if (beats % 3 === 0) return Array.from({ length: beats / 3 }, () => 3);
  return [4, ...usualGroups(beats - 4)];
};

/** Short pulses in beats of two, a last one of three: 7 is 2 + 2 + 3. */
const shortBeats = (pulses: number): readonly number[] => {
  if (pulses <= 3) return pulses > 0 ? [pulses] : [];
  return [2, ...shortBeats(pulses - 2)];
};

interface Raw {
  readonly lengthPulses: number;
  readonly parts: 2 | 3;
}

/** The groups of the metre, each as its beats. */
const groupsOf = ({ pulses, lower, groups, compound }: Metre): readonly (readonly Raw[])[] => {
  if (!compound && lower >= 8) {
    const written = groups.length > 1 ? groups.map(shortBeats) : [shortBeats(pulses)];
    const short = written.map((beats) =>
      beats.map((length): Raw => ({ lengthPulses: length, parts: length === 3 ? 3 : 2 })),
    );
    return groups.length > 1 ? short : regroup(short.flat());
  }
  // Halves and whole notes are felt in quarters.
  const beatsInPulse = compound || lower >= 4 ? 1 : 4 / lower;
  const beat: Raw = { lengthPulses: 1 / beatsInPulse, parts: compound ? 3 : 2 };
  const sizes = groups.length > 1 ? groups.map((group) => group * beatsInPulse) : [];
  const all = sizes.length > 0 ? sizes : usualGroups(pulses * beatsInPulse);
  return all.map((size) => Array.from({ length: size }, () => beat));
};

const regroup = (beats: readonly Raw[]): Raw[][] => {
  let at = 0;
  return usualGroups(beats.length).map((size) => {
    at += size;
    return beats.slice(at - size, at);
  });
};

const joined = (beats: readonly Raw[]): Raw => ({
  lengthPulses: beats.reduce((sum, { lengthPulses }) => sum + lengthPulses, 0),
  parts: beats.length === 3 ? 3 : 2,
});

/** Two beats as one; three that are left over as one of three parts. */
const halved = (beats: readonly Raw[]): Raw[] => {
  if (beats.length <= 3) return beats.length > 0 ? [joined(beats)] : [];
  return [joined(beats.slice(0, 2)), ...halved(beats.slice(2))];
};

const doubled = ({ lengthPulses, parts }: Raw): Raw[] =>
  Array.from({ length: parts }, () => ({ lengthPulses: lengthPulses / parts, parts: 2 }));

const atSpeed = (groups: readonly (readonly Raw[])[], speed: Speed): readonly (readonly Raw[])[] => {
  if (speed === 'plain') return groups;
  if (speed === 'half') return regroup(groups.flatMap(halved));
  return groups.flatMap((group) => regroup(group.flatMap(doubled)));
};

/**
 * The beats of a bar of the metre, in order; of `pulses` pulses, where the bar has more or fewer than its metre.
 * Example: 4/4 has four in one group, 7/8 beats of 2, 2 and 3 eighths, 2/2 four, 6/8 two of three parts.
 */
export const beatsOf = (metre: Metre, pulses: number, speed: Speed = 'plain'): Beat[] => {
  const beats: Beat[] = [];
  let at = 0;
  const add = (lengthPulses: number, parts: 2 | 3, opensGroup: boolean) => {
    if (at >= pulses - 1e-9) return;
    beats.push({ atPulse: at, lengthPulses: Math.min(lengthPulses, pulses - at), parts, opensGroup });
    at += lengthPulses;
  };
  for (const group of atSpeed(groupsOf(metre), speed)) {
    group.forEach(({ lengthPulses, parts }, i) => {
      add(lengthPulses, parts, i === 0);
    });
  }
  while (at < pulses - 1e-9) add(1, 2, false);
  return beats;
};

/** A few beats that belong together: two, three, or one that is left over. */
export interface Cell {
  readonly beats: readonly Beat[];
  /** From 0 in the bar. */
  readonly index: number;
}

/** The bar in twos and threes, as its groups have them: 4 is 2 + 2, 5 as 3 + 2 is just that, 7 as 4 + 3 is 2 + 2 + 3. */
export const cellsOf = (beats: readonly Beat[]): Cell[] => {
  const groups: Beat[][] = [];
  for (const beat of beats) {
    if (beat.opensGroup || groups.length === 0) groups.push([beat]);
    else (groups.at(-1) as Beat[]).push(beat);
  }
  return groups.flatMap(inTwosAndThrees).map((cell, index) => ({ beats: cell, index }));
};

const inTwosAndThrees = (beats: readonly Beat[]): (readonly Beat[])[] =>
  beats.length <= 3 ? [beats] : [beats.slice(0, 2), ...inTwosAndThrees(beats.slice(2))];

/**
 * A place in beats as a place in pulses, straight. In a beat of three parts the second half is its last third, where
 * a swung eighth would fall.
 */
export const pulseAtBeat = (beats: readonly Beat[], place: number): number => {
  const index = Math.floor(place + 1e-9);
  const beat = beats[index];
  if (!beat) return Number.NaN;
  const part = place - index;
  const isThree = beat.parts === 3;
  const within = isThree ? (part < 0.2 ? 0 : part < 0.4 ? 1 / 3 : 2 / 3) : part;
  return beat.atPulse + within * beat.lengthPulses;
};

/** Length of an eighth in pulses: how much earlier a pushed chord sounds. In compound time a third of a pulse. */
export const eighthOf = ({ compound, lower }: Metre): number => (compound ? 1 / 3 : lower / 8);
