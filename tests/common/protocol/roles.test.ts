import { describe, expect, it } from 'vitest';
import { isDocumentName, mayCall, mayManage, mayWrite, ROLES } from '../../../common/protocol/roles.ts';

describe('roles', () => {
  it('lets leaders and players write the book and the charts', () => {
    for (const document of ['book', 'chart.x1']) {
      expect(ROLES.filter((role) => mayWrite(role, document))).toEqual(['leader', 'player']);
    }
  });

  it('lets nobody write the stage: the relay is its one writer', () => {
    expect(ROLES.filter((role) => mayWrite(role, 'stage'))).toEqual([]);
  });

  it('lets the leader call, and a player who has the baton', () => {
    expect(ROLES.filter((role) => mayCall(role, false))).toEqual(['leader']);
    expect(ROLES.filter((role) => mayCall(role, true))).toEqual(['leader', 'player']);
    expect(ROLES.filter(mayManage)).toEqual(['leader']);
  });

  it('knows the names a document can have', () => {
    expect(['book', 'stage', 'chart.a', 'chart.Ab-9_'].every(isDocumentName)).toBe(true);
    expect(
      ['', 'books', 'chart.', 'chart.a/b', 'chart.a b', `chart.${'a'.repeat(65)}`].some(isDocumentName),
    ).toBe(false);
  });
});
