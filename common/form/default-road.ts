import type { RoadOrder } from './road-line.ts';

/** A leg to be built: where its id comes from, what it is called, what it plays. */
export interface LegOrder {
  readonly id: string;
  readonly name: string;
  readonly order: RoadOrder;
  readonly words?: string;
}

const AFTER = ['outro', 'ending', 'coda', 'tag'];

/**
 * The road of a chart that has no road map: Intro once if there is one; Head once, Solos open, Head out once over
 * the other sections in order; Outro, Ending, Coda, Tag after. A Vamp that stands before or after the other
 * sections is a leg of its own, played till the leader calls go on. The ids are always the same.
 * Source: common practice, no source.
 * @param jumpsToCoda the sections say `"to coda"` somewhere: the Head out then leaves for the Coda there
 */
export const defaultRoad = (labels: readonly string[], jumpsToCoda: boolean): LegOrder[] => {
  const named = labels.map((label, index) => ({ index, label, name: label.trim().toLowerCase() }));
  const isForm = ({ name }: { readonly name: string }) =>
    name !== 'intro' && name !== 'vamp' && !AFTER.includes(name);
  const form = named.filter(isForm);
  const [firstOfForm, lastOfForm] = [form[0], form.at(-1)];
  // A vamp in the middle is part of the form; nobody could say where else it belongs.
  const head = named.filter(
    (section) =>
      isForm(section) ||
      (section.name === 'vamp' &&
        firstOfForm !== undefined &&
        lastOfForm !== undefined &&
        section.index > firstOfForm.index &&
        section.index < lastOfForm.index),
  );
  const before = named.filter(
    ({ name, index }) =>
      name === 'intro' || (name === 'vamp' && (firstOfForm === undefined || index < firstOfForm.index)),
  );
  const after = named.filter(
    ({ name, index }) =>
      AFTER.includes(name) || (name === 'vamp' && lastOfForm !== undefined && index > lastOfForm.index),
  );

  const used = new Set<string>();
  const legOf = ({ index, label, name }: (typeof named)[number]): LegOrder => {
    let id = name;
    for (let count = 2; used.has(id); count++) id = `${name}${count}`;
    used.add(id);
    return {
      id,
      name: label.trim(),
      order: { sections: [index], ...(name === 'vamp' ? { times: 'vamp' as const } : {}) },
    };
  };
  const sections = head.map(({ index }) => index);
  const leaves = jumpsToCoda && after.some(({ name }) => name === 'coda');
  const chorus = (id: string, name: string, more: Partial<RoadOrder>): LegOrder[] =>
    sections.length === 0 ? [] : [{ id, name, order: { sections, ...more } }];
  return [
    ...before.map(legOf),
    ...chorus('head', 'Head', {}),
    ...chorus('solos', 'Solos', { times: 'open' }),
    ...chorus('headOut', 'Head out', leaves ? { jump: { to: 'coda', withRepeats: false } } : {}),
    ...after.filter(({ name }) => !(leaves && name === 'coda')).map(legOf),
  ];
};
