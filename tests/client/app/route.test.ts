import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bandHref,
  joinHref,
  pencilHref,
  printRoute,
  type Route,
  readRoute,
} from '../../../client/app/route.ts';

const word = fc.string({ minLength: 1, maxLength: 12 }).filter((text) => !/^(join|code|start)$/.test(text));

const routes: fc.Arbitrary<Route> = fc.oneof(
  fc.constant<Route>({ page: 'start' }),
  fc.record({ page: fc.constant('join' as const), band: word, key: word }),
  fc.record({ page: fc.constant('code' as const), code: word }),
  fc.record({
    page: fc.constant('band' as const),
    band: word,
    view: fc.oneof(
      fc.constantFrom({ name: 'book' as const }, { name: 'podium' as const }, { name: 'stand' as const }),
      fc.record({ name: fc.constantFrom('pencil' as const, 'stand' as const), chart: word }),
    ),
  }),
);

describe('the address of a page', () => {
  it('reads back as the same page, whatever letters its names hold', () => {
    fc.assert(
      fc.property(routes, (route) => {
        expect(readRoute(printRoute(route))).toEqual(route);
      }),
    );
  });

  it('of a join link names the band and the key', () => {
    expect(readRoute(joinHref('b1', 'k-2_3'))).toEqual({ page: 'join', band: 'b1', key: 'k-2_3' });
    expect(joinHref('b1', 'k')).toBe('#join/b1/k');
  });

  it('with a band alone opens its stand', () => {
    expect(readRoute('#b1')).toEqual({ page: 'band', band: 'b1', view: { name: 'stand' } });
  });

  it('of a pencil names the chart', () => {
    expect(readRoute(pencilHref('b1', 'c9'))).toEqual({
      page: 'band',
      band: 'b1',
      view: { name: 'pencil', chart: 'c9' },
    });
    expect(bandHref('b1', 'book')).toBe('#b1/book');
  });

  it('that is cut off or mistyped is said to be unknown', () => {
    for (const hash of ['#join/b1', '#b1/pencil', '#b1/kitchen', '#join/%E0%A4%A/k']) {
      expect(readRoute(hash)).toEqual({ page: 'unknown' });
    }
  });

  it('never throws, whatever is typed', () => {
    fc.assert(
      fc.property(fc.string(), (hash) => {
        expect(readRoute(`#${hash}`)).toHaveProperty('page');
      }),
    );
  });
});
