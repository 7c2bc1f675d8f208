import { describe, expect, it } from 'vitest';
import { BAR_TOOLS, moveChosen } from '../../../client/pencil/bar-tools.ts';
import { repeatCount, setRepeatCount } from '../../../client/pencil/repeat-count.ts';
import { addWords, SIGN_TOOLS, toggleWords } from '../../../client/pencil/sign-tools.ts';
import type { AfterTool } from '../../../client/pencil/tool.ts';
import { openChart, type Writer } from './open-chart.ts';

const FERRY = '[A]\n| Eb7 | Ab7 |\n| Bb7 | Eb7 |\n[B]\n| Fm7 | Bb7 |\n';

const use = (writer: Writer, id: string, ...bars: number[]): AfterTool => {
  const tool = [...BAR_TOOLS, ...SIGN_TOOLS].find((one) => one.id === id);
  if (tool === undefined || !('use' in tool)) throw new Error(`no tool ${id} that is used at once`);
  return tool.use(writer.atHand(...bars));
};
const isOn = (writer: Writer, id: string, ...bars: number[]) => {
  const { chart, chosen } = writer.atHand(...bars);
  const at = chart.sections.flatMap((section) => section.bars).filter((bar) => chosen.includes(bar.id));
  return SIGN_TOOLS.find((tool) => tool.id === id)?.isOn?.(at);
};

describe('tools for bars', () => {
  it('put a bar behind the last chosen one, or at the end, and open it', async () => {
    const { ines } = await openChart(FERRY);
    expect(use(ines, 'barAfter', 0, 1)).toEqual({ open: ines.bar(2) });
    expect(ines.texts()[0]).toBe('Eb7 Ab7 - Bb7 Eb7');
    expect(use(ines, 'barAfter')).toEqual({ open: ines.bar(7) });
    expect(ines.texts()[1]).toBe('Fm7 Bb7 -');
  });

  it('begin an empty chart with a section', async () => {
    const { ines } = await openChart('title: Ropewalk\n');
    expect(use(ines, 'barAfter')).toEqual({ open: ines.bar(0) });
    expect(ines.music()).toBe('[A]\n|  |\n');
  });

  it('copy the chosen bars behind themselves and have the copies at hand', async () => {
    const { ines } = await openChart(FERRY);
    expect(use(ines, 'duplicate', 0, 1)).toEqual({ choose: [2, 3].map(ines.bar) });
    expect(ines.texts()[0]).toBe('Eb7 Ab7 Eb7 Ab7 Bb7 Eb7');
  });

  it('delete the chosen bars and have the next one at hand, or the one before', async () => {
    const { ines } = await openChart(FERRY);
    const [third, fourth] = [ines.bar(2), ines.bar(3)];
    expect(use(ines, 'delete', 0, 1)).toEqual({ choose: [third] });
    expect(use(ines, 'delete', 2, 3)).toEqual({ choose: [fourth] });
    expect(ines.texts()).toEqual(['Bb7 Eb7', '']);
  });

  it('move bars by one place, over the end of a section into its neighbour and back', async () => {
    const { ines } = await openChart(FERRY);
    moveChosen(ines.atHand(2, 3), -1);
    expect(ines.texts()[0]).toBe('Eb7 Bb7 Eb7 Ab7');
    moveChosen(ines.atHand(3), 1);
    expect(ines.texts()).toEqual(['Eb7 Bb7 Eb7', 'Ab7 Fm7 Bb7']);
    moveChosen(ines.atHand(3), -1);
    expect(ines.texts()).toEqual(['Eb7 Bb7 Eb7 Ab7', 'Fm7 Bb7']);
    expect(moveChosen(ines.atHand(0), -1)).toBeNull();
    expect(moveChosen(ines.atHand(5), 1)).toBeNull();
  });

  it('begin a section at the first chosen bar; where one begins already, an empty one follows', async () => {
    const { ines } = await openChart(FERRY);
    use(ines, 'section', 2);
    expect(ines.chart().sections.map(({ label }) => label)).toEqual(['A', 'C', 'B']);
    expect(ines.texts()).toEqual(['Eb7 Ab7', 'Bb7 Eb7', 'Fm7 Bb7']);
    expect(use(ines, 'section', 2)).toEqual({ open: ines.bar(4) });
    expect(ines.texts()).toEqual(['Eb7 Ab7', 'Bb7 Eb7', '-', 'Fm7 Bb7']);
    ines.handle.undo();
    ines.handle.undo();
    expect(ines.texts()).toEqual(['Eb7 Ab7 Bb7 Eb7', 'Fm7 Bb7']);
  });
});

describe('tools for signs', () => {
  it('write % and keep the words over the bar', async () => {
    const { ines } = await openChart('[A]\n| C7 | "fill" F7 G7 |\n');
    use(ines, 'repeatBar', 1);
    expect(ines.texts()[0]).toBe('C7 "fill" %');
  });

  it('put a repeat around the chosen bars and take it away', async () => {
    const { ines } = await openChart(FERRY);
    use(ines, 'repeat', 0, 1);
    expect(ines.music()).toMatch(/^\[A\]\n\|: Eb7 \| Ab7 :\|\n/);
    expect([isOn(ines, 'repeat', 0, 1), isOn(ines, 'repeat', 0)]).toEqual([true, false]);
    use(ines, 'repeat', 0, 1);
    expect(ines.music()).toMatch(/^\[A\]\n\| Eb7 \| Ab7 \|\n/);
  });

  it('say how often a repeat is played in all', async () => {
    const { ines } = await openChart('[A]\n|: C7 | F7 :|\n| C7 |\n|: G7 :|x4\n');
    expect(repeatCount(ines.chart(), [ines.bar(0)])).toBe(2);
    setRepeatCount(ines.atHand(0), 3);
    expect(ines.music()).toBe('[A]\n|: C7 | F7 :|x3\n| C7 |\n|: G7 :|x4\n');
    setRepeatCount(ines.atHand(0, 1), 2);
    expect(ines.music()).toBe('[A]\n|: C7 | F7 :|\n| C7 |\n|: G7 :|x4\n');
    // Nothing is repeated at the bar between: its own repeat, not that of the next.
    expect(repeatCount(ines.chart(), [ines.bar(2)])).toBeNull();
    setRepeatCount(ines.atHand(2), 5);
    expect(ines.music()).toBe('[A]\n|: C7 | F7 :|\n|: C7 :|x5\n|: G7 :|x4\n');
    ines.handle.undo();
    expect(repeatCount(ines.chart(), [ines.bar(2)])).toBeNull();
  });

  it('go from one ending or bar line to the next at each touch', async () => {
    const { ines } = await openChart(FERRY);
    const endings = ['1.', '2.', '3.', ''].map((ending) => {
      use(ines, 'ending', 1);
      return [ending, ines.chart().sections[0]?.bars[1]?.ending];
    });
    for (const [wanted, written] of endings) expect(written).toBe(wanted);
    const lines = ['||', '|]', ''].map((sign) => {
      use(ines, 'barLine', 0, 1);
      return [sign, ines.chart().sections[0]?.bars[1]?.right];
    });
    for (const [wanted, written] of lines) expect(written).toBe(wanted);
  });

  it('end a line, and let it go on', async () => {
    const { ines } = await openChart(FERRY);
    use(ines, 'line', 1);
    expect(ines.music()).toBe('[A]\n| Eb7 | Ab7 | Bb7 | Eb7 |\n[B]\n| Fm7 | Bb7 |\n');
    use(ines, 'line', 0);
    expect(ines.music()).toBe('[A]\n| Eb7 |\n| Ab7 | Bb7 | Eb7 |\n[B]\n| Fm7 | Bb7 |\n');
  });

  it('put words over all chosen bars, and take them away where all have them', async () => {
    const { ines } = await openChart('[A]\n| "break" C7 | F7 |\n');
    expect([isOn(ines, 'break', 0), isOn(ines, 'break', 0, 1)]).toEqual([true, false]);
    use(ines, 'break', 0, 1);
    expect(ines.texts()[0]).toBe('"break" C7 "break" F7');
    use(ines, 'break', 0, 1);
    expect(ines.texts()[0]).toBe('C7 F7');
    toggleWords(ines.atHand(1), 'let ring');
    addWords(ines.atHand(0, 1), 'say "now"');
    expect(ines.texts()[0]).toBe(`"say 'now'" C7 "let ring" F7`);
  });
});
