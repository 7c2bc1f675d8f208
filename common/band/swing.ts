/**
 * Drummers' ride cymbals as measured: the ratio falls about linearly with the tempo, from 3.5:1 around 120 beats a
 * minute to 1:1 at fast tempos, where the short note stays near 100 ms. Friberg & Sundström 1997 (TMH-QPSR 4) and
 * 2002 ("Swing ratios and ensemble timing in jazz performance", Music Perception 19). At 300 a minute two equal
 * eighths last 100 ms each.
 */
const SLOW = { bpm: 120, ratio: 3.5 };
const FAST = { bpm: 300, ratio: 1 };

/**
 * How many times as long as the second eighth of a beat the first one is, at so many beats a minute.
 * Example: 3.5 at 120 and below, 1 at 300 and above, 2.25 in the middle.
 */
export const swingRatio = (beatsPerMinute: number): number => {
  const way = (beatsPerMinute - SLOW.bpm) / (FAST.bpm - SLOW.bpm);
  return SLOW.ratio + (FAST.ratio - SLOW.ratio) * Math.min(1, Math.max(0, way));
};

/**
 * Where in its beat the second eighth falls: ratio / (ratio + 1).
 * Example: 1 : 1 → 0.5, 2 : 1 → 0.667.
 */
export const offbeatAt = (ratio: number): number => ratio / (ratio + 1);

/**
 * A straight place, in beats, as it is swung: beats stay, the halves between them move, everything else is stretched
 * with them.
 * Law: it rises with the place, and `swung(place, 1)` is `place`.
 */
export const swung = (place: number, ratio: number): number => {
  const beat = Math.floor(place);
  const part = place - beat;
  const off = offbeatAt(ratio);
  return beat + (part < 0.5 ? part * 2 * off : off + (part - 0.5) * 2 * (1 - off));
};
