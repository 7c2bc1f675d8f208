import type { Bar, Chart, KeptLine, RoadLine, Section } from '../chart/chart.ts';
import { commonPairs, gapsBetween, type Pair, pairLists } from './match-lists.ts';

/** Which part of the chart before each part of a rewritten chart is: its id there → the id before. */
export type SameAs = ReadonlyMap<string, string>;

/**
 * Finds the parts of a chart again in a rewritten one, by what they hold, so that they keep their ids. Sections by
 * name, then by place. Bars by rows of equal bars in the same section; then equal bars that moved; then what
 * stands at the same place between two bars found again is the same bar rewritten.
 */
export const matchCharts = (before: Chart, after: Chart): SameAs => {
  const same = new Map<string, string>();
  const pair = <Item extends { readonly id: string }>(
    from: readonly Item[],
    to: readonly Item[],
    pairs: readonly Pair[],
  ) => {
    for (const [a, b] of pairs) {
      const [old, next] = [from[a], to[b]];
      if (old && next) same.set(next.id, old.id);
    }
  };

  const sectionPairs = pairSections(before.sections, after.sections);
  pair(before.sections, after.sections, sectionPairs);
  matchBars(before.sections, after.sections, sectionPairs, same);
  const lineKeys = [
    ({ name, sections, times, words }: RoadLine) => JSON.stringify([name, sections, times, words]),
    ({ name }: RoadLine) => name,
  ];
  pair(before.road, after.road, pairLists(before.road, after.road, lineKeys));
  pair(before.lines, after.lines, pairLists(before.lines, after.lines, [({ text }: KeptLine) => text]));
  return same;
};

const pairSections = (before: readonly Section[], after: readonly Section[]): Pair[] => {
  const pairs: Pair[] = [];
  const free = new Set(before.keys());
  after.forEach(({ label }, index) => {
    const found = [...free].find((at) => before[at]?.label === label);
    if (found === undefined) return;
    free.delete(found);
    pairs.push([found, index]);
  });
  // A section renamed: the one left over between the same neighbours that holds some of the same music.
  after.forEach((section, index) => {
    if (pairs.some(([, at]) => at === index)) return;
    const renamed = [...free].find((at) => sharesBars(before[at], section));
    if (renamed === undefined) return;
    free.delete(renamed);
    pairs.push([renamed, index]);
  });
  return pairs;
};

const sharesBars = (a: Section | undefined, b: Section): boolean => {
  if (!a) return false;
  const texts = (section: Section) => section.bars.map(({ text }) => text);
  return 2 * commonPairs(texts(a), texts(b)).length >= Math.max(a.bars.length, b.bars.length);
};

const wholeBar = ({ text, left, right, ending, lineEnd }: Bar): string =>
  JSON.stringify([text, left, right, ending, lineEnd]);

const matchBars = (
  before: readonly Section[],
  after: readonly Section[],
  sections: readonly Pair[],
  same: Map<string, string>,
): void => {
  const free = new Set(before.flatMap(({ bars }) => bars));
  const take = (old: Bar | undefined, next: Bar | undefined) => {
    if (!old || !next) return;
    free.delete(old);
    same.set(next.id, old.id);
  };
  const barsOfPair = ([a, b]: Pair) => [before[a]?.bars ?? [], after[b]?.bars ?? []] as const;

  const anchors = sections.map((sectionPair) => {
    const [old, next] = barsOfPair(sectionPair);
    const pairs = commonPairs(old.map(wholeBar), next.map(wholeBar));
    for (const gap of gapsBetween(pairs, old.length, next.length)) {
      const oldTexts = old.slice(gap.fromBefore, gap.toBefore).map(({ text }) => text);
      const nextTexts = next.slice(gap.fromAfter, gap.toAfter).map(({ text }) => text);
      for (const [a, b] of commonPairs(oldTexts, nextTexts))
        pairs.push([a + gap.fromBefore, b + gap.fromAfter]);
    }
    for (const [a, b] of pairs) take(old[a], next[b]);
    return pairs.sort(([a], [b]) => a - b);
  });

  for (const bar of after.flatMap(({ bars }) => bars)) {
    // Signs of repetition and empty bars are too alike to be called moved.
    if (same.has(bar.id) || /^(%%?|)$/.test(bar.text)) continue;
    take(
      [...free].find(({ text }) => text === bar.text),
      bar,
    );
  }

  sections.forEach((sectionPair, index) => {
    const [old, next] = barsOfPair(sectionPair);
    for (const gap of gapsBetween(anchors[index] ?? [], old.length, next.length)) {
      const oldLeft = old.slice(gap.fromBefore, gap.toBefore).filter((bar) => free.has(bar));
      const nextLeft = next.slice(gap.fromAfter, gap.toAfter).filter(({ id }) => !same.has(id));
      nextLeft.forEach((bar, at) => {
        take(oldLeft[at], bar);
      });
    }
  });
};
