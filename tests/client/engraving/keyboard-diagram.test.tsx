import fc from 'fast-check';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { KeyboardDiagram } from '../../../client/engraving/keyboard-diagram.tsx';
import { layKeyboard } from '../../../client/engraving/lay-keyboard.ts';
import { NoteNamesContext } from '../../../client/engraving/note-names.ts';
import type { KeysStyle } from '../../../common/shapes/keyboard/keyboard-voicing.ts';
import { keyboardVoicings } from '../../../common/shapes/keyboard/keyboard-voicings.ts';
import { readChordSymbol } from '../../../common/theory/chord-symbol.ts';
import { NOTE_NAMES, type NoteNames } from '../../../common/theory/note-name.ts';

const voicings = (text: string, style: KeysStyle) => {
  const symbol = readChordSymbol(text);
  if (symbol === null) throw new Error(`${text} is not read`);
  return keyboardVoicings(symbol, style);
};
const [shell] = voicings('Bb7', 'shells');
if (shell === undefined) throw new Error('B flat 7 has no shell');

const drawn = (names: NoteNames = 'english', named = true): string =>
  renderToStaticMarkup(
    <NoteNamesContext value={names}>
      <KeyboardDiagram voicing={shell} named={named} />
    </NoteNamesContext>,
  );

const pressedKeys = fc.uniqueArray(fc.integer({ min: 24, max: 100 }), { minLength: 1, maxLength: 7 });

describe('the keys that are drawn', () => {
  it('begin on C or F and end on E or B, as few as the voicing needs and an octave at least', () => {
    fc.assert(
      fc.property(pressedKeys, (pitches) => {
        const drawnPitches = layKeyboard(pitches)
          .keys.map(({ pitch }) => pitch)
          .sort((one, other) => one - other);
        const [low = 0] = drawnPitches;
        const high = drawnPitches.at(-1) ?? 0;
        expect([0, 5]).toContain(low % 12);
        expect([4, 11]).toContain(high % 12);
        expect(drawnPitches).toEqual(Array.from({ length: high - low + 1 }, (_, at) => low + at));
        expect(drawnPitches).toEqual(expect.arrayContaining(pitches));
        expect(Math.min(...pitches) - low).toBeLessThan(7);
        expect(high - Math.max(...pitches, low + 11)).toBeLessThan(7);
      }),
    );
  });

  // Common practice, no source: two black keys, three black keys.
  it('have their black ones between the white ones that an octave has', () => {
    const { keys, width } = layKeyboard([60]);
    expect(keys.filter(({ isBlack }) => !isBlack).map(({ pitch }) => pitch % 12)).toEqual([
      0, 2, 4, 5, 7, 9, 11,
    ]);
    expect(keys.filter(({ isBlack }) => isBlack).map(({ pitch }) => pitch % 12)).toEqual([1, 3, 6, 8, 10]);
    for (const { x, width: wide, pitch, isBlack } of keys) {
      expect(x >= 0 && x + wide <= width).toBe(true);
      if (!isBlack) continue;
      const below = keys.find((key) => key.pitch === pitch - 1);
      const above = keys.find((key) => key.pitch === pitch + 1);
      expect(x).toBeGreaterThan(below?.x ?? width);
      expect(x).toBeLessThan(above?.x ?? 0);
      expect(x + wide).toBeGreaterThan(above?.x ?? width);
    }
  });
});

describe('a voicing on the keyboard', () => {
  it('says hand, notes and root, also to those who listen', () => {
    expect(drawn()).toContain('aria-label="left hand B flat (the root), D, A flat"');
    expect(drawn('german')).toContain('aria-label="left hand B (the root), D, A flat"');
    const two = voicings('C7', 'twoHands')[0];
    if (two === undefined) throw new Error('C7 has no spread');
    expect(renderToStaticMarkup(<KeyboardDiagram voicing={two} />)).toMatch(
      /aria-label="left hand C \(the root\), (E|B flat); right hand /,
    );
  });

  it('marks each key pressed with its hand and degree', () => {
    const marks = [...drawn().matchAll(/data-pitch="(\d+)" data-hand="(\w+)" data-degree="(\w+)"/g)];
    expect(marks.map(([, pitch, hand, degree]) => [Number(pitch), hand, degree]).sort()).toEqual(
      shell.keys.map(({ pitch, hand, degree }) => [pitch, hand, degree]).sort(),
    );
  });

  it.each(NOTE_NAMES)('keeps names apart and within its ends (%s)', (names) => {
    for (const voicing of voicings('Galt', 'twoHands').concat(voicings('Cm7b5', 'rootless'))) {
      const html = renderToStaticMarkup(
        <NoteNamesContext value={names}>
          <KeyboardDiagram voicing={voicing} named />
        </NoteNamesContext>,
      );
      const places = [...html.matchAll(/keyboard-name" transform="translate\(([\d.-]+) ([\d.-]+)\)/g)];
      expect(places).toHaveLength(voicing.keys.length);
      const { width } = layKeyboard(voicing.keys.map(({ pitch }) => pitch));
      for (const [, x] of places) expect(Number(x) >= 0 && Number(x) < width).toBe(true);
    }
  });

  it('writes no names where none are wanted', () => {
    expect(drawn('english', false)).not.toContain('keyboard-name');
  });
});
