import { renderToString } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { BarWords } from '../../../client/engraving/bar-words.tsx';
import { readBars } from '../../../common/chart/read-bars.ts';
import { readChart } from '../../../common/chart/read-chart.ts';
import { readKey } from '../../../common/theory/key.ts';
import { readingFor, transposeSymbol } from '../../../common/theory/transpose.ts';

/** The words over the first bar of a chart in D, as somebody reads them whose instrument sounds lower by so many semitones. */
const words = (bar: string, semitones: number): string => {
  const { chart } = readChart(`key: D\n[A]\n| ${bar} |\n`);
  const [music] = readBars(chart).music.values();
  const reading = readingFor(readKey('D'), semitones);
  const html = renderToString(
    <BarWords
      words={music?.words ?? []}
      read={(symbol) => transposeSymbol(symbol, reading)}
      leg={undefined}
      quiet={false}
    />,
  );
  return html.replaceAll(/<[^>]*>/g, '');
};

describe('words over a bar', () => {
  it('name a key as the reader reads it, with what follows its tonic', () => {
    // A tenor saxophone reads a major second higher, an alto a major sixth (common practice, no source).
    expect(words('"key F" C7', 0)).toBe('key F');
    expect(words('"key F" C7', 2)).toBe('key G');
    expect(words('"key Bb minor" F7', 2)).toBe('key C minor');
    expect(words('"key Bb minor" F7', 9)).toBe('key G minor');
  });

  it('are left alone where they are no key', () => {
    expect(words('"Dawn comes in" C7', 2)).toBe('Dawn comes in');
    expect(words('"break" C7', 2)).toBe('break');
  });
});
