/**
 * Steps in the groups that are played alike: a chord and what repeats it. In a form that goes round the last group
 * goes on over the seam, and then stands first.
 * @param goesOn whether a step goes on with those that are held
 * @example heldSteps(['C', 'C', 'F', 'C'], ([held], next) => held === next, true) // [['C', 'C', 'C'], ['F']]
 */
export function heldSteps<Step>(
  steps: readonly Step[],
  goesOn: (held: readonly Step[], next: Step) => boolean,
  closed: boolean,
): Step[][] {
  const groups: Step[][] = [];
  for (const step of steps) {
    const held = groups.at(-1);
    if (held !== undefined && goesOn(held, step)) held.push(step);
    else groups.push([step]);
  }
  const [first, last] = [groups[0], groups.at(-1)];
  if (!closed || first === undefined || last === undefined || first === last) return groups;
  return first.every((step) => goesOn(last, step)) ? [[...last, ...first], ...groups.slice(1, -1)] : groups;
}
