import { describe, expect, it } from 'vitest';
import {
  intervalWords,
  keyChoices,
  keyOf,
  readingBy,
  transposeDocument,
} from '../../../client/pencil/transposition.ts';
import { readKey } from '../../../common/theory/key.ts';
import { printNote } from '../../../common/theory/plain-signs.ts';
import { openChart } from './open-chart.ts';

const choicesFor = (key: string) => {
  const from = readKey(key);
  if (from === null) throw new Error(`no key: ${key}`);
  return keyChoices(from);
};

describe('the keys a chart can be put into', () => {
  it('are all twelve, F♯ and G♭ both, in its own mode', () => {
    expect(choicesFor('Eb').map(({ key }) => printNote(key.tonic))).toEqual(
      'C D♭ D E♭ E F G♭ F♯ G A♭ A B♭ B'.split(' '),
    );
    expect(choicesFor('A minor').map(({ name }) => name)).toContain('F♯ minor');
  });

  it('are the nearer way up or down', () => {
    const by = Object.fromEntries(
      choicesFor('Eb blues').map(({ name, reading }) => [name, intervalWords(reading.semitones)]),
    );
    expect(by).toMatchObject({
      'E♭ blues': 'as it is',
      'F blues': 'up a whole step',
      'C blues': 'down a minor third',
      'A blues': 'up a tritone',
    });
  });
});

describe('a chart put into another key', () => {
  it('is one step for undo, and says what it could not read', async () => {
    const { ines, tomas } = await openChart('key: Eb blues\n[A]\n| Eb7 | Hm7 "key Bb" Bb7 |\n');
    const into = keyChoices(keyOf(ines.chart()) ?? { tonic: 'C', mode: 'major', fifths: 0 }).find(
      ({ name }) => name === 'F blues',
    );
    expect(
      transposeDocument(ines.handle, ines.chart(), into?.reading ?? { fifths: 0, semitones: 0 }),
    ).toEqual(['Hm7']);
    expect([tomas.chart().head.key, ...tomas.texts()]).toEqual(['F blues', 'F7 Hm7 "key C" C7']);
    ines.handle.undo();
    expect([tomas.chart().head.key, ...tomas.texts()]).toEqual(['Eb blues', 'Eb7 Hm7 "key Bb" Bb7']);
    expect(ines.handle.undoState.get().canUndo).toBe(false);
  });

  it('goes by any distance also where no key is written', async () => {
    const { ines } = await openChart('[A]\n| C7 | F7 |\n');
    transposeDocument(ines.handle, ines.chart(), readingBy(ines.chart(), -1));
    expect(ines.texts()).toEqual(['B7 E7']);
  });
});
