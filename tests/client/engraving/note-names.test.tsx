import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { ChordSymbol } from '../../../client/engraving/chord-symbol.tsx';
import { NoteNamesContext } from '../../../client/engraving/note-names.ts';
import type { NoteNames } from '../../../common/theory/note-name.ts';

const drawn = (symbol: string, names: NoteNames): string =>
  renderToStaticMarkup(
    <NoteNamesContext value={names}>
      <ChordSymbol symbol={symbol} />
    </NoteNamesContext>,
  );

describe('how notes are called', () => {
  it('is drawn and said, and leaves the symbol as it was typed', () => {
    expect(drawn('Bbm7/B', 'german')).toContain(
      'aria-label="Bm7 over H" data-symbol="Bbm7/B" data-drawn="Bm7/H"',
    );
    expect(drawn('F#7', 'solfege')).toContain('aria-label="Fa sharp 7" data-symbol="F#7" data-drawn="Fa♯7"');
    expect(drawn('Bb7', 'english')).toContain('aria-label="B flat 7" data-symbol="Bb7" data-drawn="B♭7"');
  });
});
