import { describe, expect, it } from 'vitest';
import {
  isDocumentName,
  mayCall,
  mayChange,
  mayLead,
  mayManage,
  mayWrite,
  ROLES,
} from '../../../common/protocol/roles.ts';
import type { LeadChange, Leading } from '../../../common/stage/leading.ts';

describe('roles', () => {
  it('lets leaders and players write the book and the charts', () => {
    for (const document of ['book', 'chart.x1']) {
      expect(ROLES.filter((role) => mayWrite(role, document))).toEqual(['leader', 'player']);
    }
  });

  it('lets nobody write the stage: the relay is its one writer', () => {
    expect(ROLES.filter((role) => mayWrite(role, 'stage'))).toEqual([]);
  });

  it('lets leaders lead, and the player who has the baton, but no reader with that id', () => {
    const leading: Leading = { baton: 'bea', taps: 'drums' };
    const leads = (member: string | null, who: Leading) => ROLES.filter((role) => mayLead(role, member, who));
    expect(leads('bea', {})).toEqual(['leader']);
    expect(leads('bea', leading)).toEqual(['leader', 'player']);
    expect(leads('drums', leading)).toEqual(['leader']);
    expect(leads(null, leading)).toEqual(['leader']);
    expect(ROLES.filter(mayManage)).toEqual(['leader']);
  });

  it('lets who leads call, and taps also the player who was lent them', () => {
    const leading: Leading = { baton: 'bea', taps: 'drums' };
    const calls = (member: string, kind: string) =>
      ROLES.filter((role) => mayCall(role, member, leading, { kind }));
    expect(['lastChorus', 'takeBack', 'here', 'tap'].map((kind) => calls('bea', kind).length)).toEqual([
      2, 2, 2, 2,
    ]);
    expect(['lastChorus', 'takeBack', 'here', 'tap'].map((kind) => calls('drums', kind).length)).toEqual([
      1, 1, 1, 2,
    ]);
    expect(calls('drums', 'tap')).not.toContain('reader');
  });

  it('lets leaders change who leads, and players give back what they have and lend taps with the baton', () => {
    const leading: Leading = { baton: 'bea', taps: 'drums' };
    const changes: LeadChange[] = [
      { baton: 'joon' },
      { baton: null },
      { taps: 'joon' },
      { taps: null },
      { baton: null, taps: null },
      { locked: true },
      { locked: false },
    ];
    const may = (role: 'leader' | 'player' | 'reader', member: string | null) =>
      changes.filter((change) => mayChange(role, member, leading, change));
    expect(may('leader', null)).toEqual(changes);
    expect(may('player', 'bea')).toEqual([changes[1], changes[2], changes[3], changes[4]]);
    expect(may('player', 'drums')).toEqual([changes[3]]);
    expect([may('player', 'joon'), may('player', null), may('reader', 'bea')]).toEqual([[], [], []]);
  });

  it('knows the names a document can have', () => {
    expect(['book', 'stage', 'chart.a', 'chart.Ab-9_'].every(isDocumentName)).toBe(true);
    expect(
      ['', 'books', 'chart.', 'chart.a/b', 'chart.a b', `chart.${'a'.repeat(65)}`].some(isDocumentName),
    ).toBe(false);
  });
});
