import { describe, expect, it } from 'vitest';
import { detailWords } from '../../../client/engraving/flag.tsx';
import type { Announcement } from '../../../common/stage/place.ts';

const announced = (kind: string, detail: string) => ({ kind, detail }) as Announcement;

describe('what a flag says beside its name', () => {
  it('is a key as the reader calls the notes', () => {
    expect(detailWords(announced('up', 'concert B minor'), 'german')).toBe('concert H minor');
    expect(detailWords(announced('key', 'concert B♭ blues'), 'german')).toBe('concert B blues');
    expect(detailWords(announced('down', 'concert G♭ major'), 'solfege')).toBe('concert Sol♭ major');
    expect(detailWords(announced('up', 'concert B♭ blues'), 'english')).toBe('concert B♭ blues');
  });

  it('is left alone where it is none: a section is no note', () => {
    expect(detailWords(announced('goTo', 'B'), 'german')).toBe('B');
    expect(detailWords(announced('key', 'concert somewhere'), 'german')).toBe('concert somewhere');
    expect(detailWords(announced('up', ''), 'solfege')).toBe('');
  });
});
