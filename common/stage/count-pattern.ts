/**
 * The count as the trade counts it. Two bars of four: "one – two – | one two three four"; more bars than two
 * count their first ones in halves of the bar too, the last one in full. In metres that have no half (three,
 * five, seven pulses) the bars before the last are counted on their first pulse alone. One bar counts in full.
 * common practice, no source
 *
 * Gives the pulses on which a bar before the last one is counted: [0, 2] in four, [0] in three.
 */
export const slowPulses = (barPulses: number): readonly number[] =>
  barPulses % 2 === 0 && barPulses > 2 ? [0, barPulses / 2] : [0];

/** A count-in: so many pulses in all, which a pick-up after it may cut short, in bars of so many. */
export interface CountLength {
  readonly pulses: number;
  readonly barPulses: number;
}

/** The pulses of the whole count-in that are counted from its bar `fromBar` on. */
export const countedPulses = ({ pulses, barPulses }: CountLength, fromBar: number): readonly number[] => {
  const bars = Math.ceil(pulses / barPulses);
  const counted: number[] = [];
  for (let bar = fromBar; bar < bars; bar += 1) {
    const isLast = bar === bars - 1;
    const inBar = isLast ? Array.from({ length: Math.ceil(barPulses) }, (_, i) => i) : slowPulses(barPulses);
    counted.push(...inBar.map((pulse) => bar * barPulses + pulse));
  }
  return counted.filter((pulse) => pulse < pulses);
};
