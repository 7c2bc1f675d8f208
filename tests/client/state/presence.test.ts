import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cursorsFrom } from '../../../client/state/cursors.ts';
import { peopleFrom, pickColour } from '../../../client/state/presence.ts';

const me = { member: 'm1', role: 'player' as const };
const ines = {
  member: 'm2',
  name: 'Ines',
  part: 'piano',
  role: 'leader',
  colour: 3,
  errorMs: 2,
  point: null,
};
const bea = { member: 'm1', name: 'Bea', part: 'tenor-sax', role: 'reader', colour: 1 };

describe('who is here', () => {
  it('lists leaders first and knows oneself by one’s own role', () => {
    const people = peopleFrom(
      new Map<number, Record<string, unknown>>([
        [1, bea],
        [2, ines],
      ]),
      me,
    );
    expect(people.map(({ name, isMe, role }) => [name, isMe, role])).toEqual([
      ['Ines', false, 'leader'],
      ['Bea', true, 'player'],
    ]);
  });

  it('counts a stand once that came back before its old connection was missed', () => {
    const people = peopleFrom(
      new Map<number, Record<string, unknown>>([
        [1, ines],
        [9, ines],
      ]),
      me,
    );
    expect(people).toHaveLength(1);
  });

  it('takes anything that others may send', () => {
    fc.assert(
      fc.property(
        fc.array(fc.dictionary(fc.constantFrom('member', 'name', 'role', 'colour', 'point'), fc.anything())),
        (states) => {
          const people = peopleFrom(new Map(states.map((state, index) => [index, state])), me);
          for (const { name, role, colour } of people) {
            expect(typeof name).toBe('string');
            expect(['leader', 'player', 'reader']).toContain(role);
            expect(colour).toBeGreaterThanOrEqual(0);
            expect(colour).toBeLessThan(8);
          }
        },
      ),
    );
  });
});

describe('cursors', () => {
  it('are those of others who stand in a bar', () => {
    const states = new Map<number, Record<string, unknown>>([
      [1, { ...bea, bar: 'b1' }],
      [2, { ...ines, bar: 'b2' }],
      [3, { member: 'm3', name: 'Tomas', bar: null }],
    ]);
    expect(cursorsFrom(states, 'm1')).toEqual([{ member: 'm2', name: 'Ines', colour: 3, bar: 'b2' }]);
  });
});

describe('a presence colour', () => {
  it('is the same every time where it is free, and never one that is taken while there is another', () => {
    fc.assert(
      fc.property(
        fc.string(),
        fc.uniqueArray(fc.integer({ min: 0, max: 7 }), { maxLength: 7 }),
        (member, taken) => {
          expect(pickColour(member, new Set())).toBe(pickColour(member, new Set()));
          expect(taken).not.toContain(pickColour(member, new Set(taken)));
        },
      ),
    );
  });
});
