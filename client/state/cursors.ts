import type { Cursor } from './chart-handle.ts';
import { colourOf, text } from './presence.ts';

/** Where others stand in a chart; oneself is left out. */
export const cursorsFrom = (
  states: ReadonlyMap<number, Readonly<Record<string, unknown>>>,
  member: string,
): Cursor[] =>
  [...states.values()].flatMap((state) =>
    typeof state['bar'] === 'string' && text(state['member']) !== '' && state['member'] !== member
      ? [
          {
            member: text(state['member']),
            name: text(state['name']),
            colour: colourOf(state['colour']),
            bar: state['bar'],
          },
        ]
      : [],
  );
