import { countingIds, type MakeId } from '../ids.ts';
import { type Chart, HEAD_WORDS } from './chart.ts';
import { findProblems } from './check-chart.ts';
import type { DraftChart, Spot } from './draft-chart.ts';
import { spotKey } from './found.ts';
import type { Problem } from './problem.ts';
import { readDraft } from './read-draft.ts';

/**
 * Reads a chart's text. Whatever was written is in the chart; what could not be taken as written is reported
 * as well, with line and column of the text as given. Never throws.
 *
 * Laws: `printChart(readChart(printChart(chart)).chart) === printChart(chart)`; reading what was printed gives the same
 * chart and the same problems but for their positions.
 * @param makeId gives the ids in order of sections with their bars, road lines, kept lines; counts where left out
 */
export const readChart = (
  text: string,
  makeId: MakeId = countingIds('i'),
): { readonly chart: Chart; readonly problems: Problem[] } => {
  const { chart, spots } = nameParts(readDraft(text), makeId);
  const problems = findProblems(chart).map(({ at, ...problem }) => {
    const spot = spots.get(at) ?? spots.get(problem.id ?? '');
    return spot ? { ...problem, ...spot } : problem;
  });
  return { chart, problems: problems.sort(byPosition) };
};

const byPosition = (a: Problem, b: Problem): number =>
  (a.line ?? 0) - (b.line ?? 0) || (a.column ?? 0) - (b.column ?? 0);

/** Gives ids to the parts of a draft, and says where each stands in the text. */
const nameParts = (draft: DraftChart, makeId: MakeId): { chart: Chart; spots: Map<string, Spot> } => {
  const spots = new Map<string, Spot>();
  const idOf = new Map<unknown, string>();
  const name = (part: unknown, spot: Spot) => {
    const id = makeId();
    idOf.set(part, id);
    spots.set(id, spot);
    return id;
  };
  for (const [word, spot] of draft.headSpots) spots.set(spotKey('head', word), spot);
  const sections = draft.sections.map((section) => ({
    id: name(section, section.spot),
    label: section.label,
    bars: section.bars.map((bar) => {
      const { spots: places, ...rest } = bar;
      const id = name(bar, places.bar);
      for (const [index, spot] of places.tokens.entries()) spots.set(spotKey(id, index), spot);
      if (places.left) spots.set(spotKey(id, 'left'), places.left);
      spots.set(spotKey(id, 'right'), places.right);
      if (places.ending) spots.set(spotKey(id, 'ending'), places.ending);
      return { id, ...rest };
    }),
  }));
  const road = draft.road.map(({ spot, ...line }, index) => ({ id: name(draft.road[index], spot), ...line }));
  // Kept lines in the order in which they are printed, so that the printed text reads back the same.
  const places = new Map<unknown, number>();
  for (const place of ['', ...HEAD_WORDS]) places.set(place, places.size);
  for (const section of draft.sections)
    for (const part of [section, ...section.bars]) places.set(part, places.size);
  for (const place of ['road', ...draft.road]) places.set(place, places.size);
  const placeOf = (after: unknown) => places.get(after) ?? 0;
  const lines = [...draft.lines]
    .sort((a, b) => placeOf(a.after) - placeOf(b.after))
    .map(({ text, spot, after }) => ({
      id: name({}, spot),
      text,
      after: typeof after === 'string' ? after : (idOf.get(after) ?? ''),
    }));
  return { chart: { head: draft.head, sections, road, lines }, spots };
};
