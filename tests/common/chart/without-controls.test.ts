import { describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import { withoutControls } from '../../../common/chart/without-controls.ts';
import { readBook, setMember } from '../../../common/document/book-document.ts';
import { setBandName } from '../../../common/document/edit-book.ts';
import { readBandName } from '../../../server/bands.ts';

// The bidirectional formatting characters of Unicode Standard Annex 9.
const TURNS = '\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069';

describe('a name', () => {
  it('loses what turns its direction, and control characters', () => {
    expect(withoutControls(`Zoe${TURNS}evil\u0000\n`)).toBe('Zoeevil');
    expect(readBandName(`The\n${TURNS}Five\u0007`)).toEqual({ ok: true, value: 'The Five' });
    expect(readBandName(TURNS).ok).toBe(false);
  });

  it('keeps letters of every script', () => {
    for (const name of ['ليلى', 'שרה', 'Zóe', 'नीना', 'Ōe 🎺']) expect(withoutControls(name)).toBe(name);
  });

  it('is read so from a book that holds it otherwise', () => {
    const doc = new Y.Doc();
    setBandName(doc, `Five${TURNS}`);
    setMember(doc, { id: 'm1', name: `Zoe${TURNS}evil`, part: 'piano' });
    expect(readBook(doc)).toMatchObject({ name: 'Five', members: [{ name: 'Zoeevil' }] });
  });
});
