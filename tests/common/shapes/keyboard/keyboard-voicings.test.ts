import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isClear, NINTH_SEMITONES, TENTH_SEMITONES } from '../../../../common/shapes/keyboard/hands.ts';
import type { KeyboardVoicing, KeysStyle } from '../../../../common/shapes/keyboard/keyboard-voicing.ts';
import { keyboardVoicings } from '../../../../common/shapes/keyboard/keyboard-voicings.ts';
import { scaleColours } from '../../../../common/shapes/keyboard/scale-colours.ts';
import { numberOf } from '../../../../common/theory/chord-degrees.ts';
import { type ChordSymbol, readChordSymbol } from '../../../../common/theory/chord-symbol.ts';
import { degreeFifths } from '../../../../common/theory/chord-tones.ts';
import { analyse } from '../../../../common/theory/harmony/analyse.ts';
import { scaleChoices } from '../../../../common/theory/harmony/scale-choice.ts';
import { makeKey } from '../../../../common/theory/key.ts';
import { fifthsOf, pitchClassOf } from '../../../../common/theory/pitch.ts';
import kinds from '../../../published/chords/musicxml-kinds.json';
import { symbolText } from '../../theory/symbol-arbitrary.ts';

const chord = (text: string): ChordSymbol => {
  const symbol = readChordSymbol(text);
  if (symbol === null) throw new Error(`"${text}" is not read`);
  return symbol;
};

const STYLES: readonly KeysStyle[] = ['pairs', 'shells', 'rootless', 'twoHands'];
const ROOTS = ['C', 'Db', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B'];
const forms = (text: string, style: KeysStyle, reachSemitones = NINTH_SEMITONES): string[] => [
  ...new Set(keyboardVoicings(chord(text), style, { reachSemitones }).map(({ form }) => form)),
];
const degreesOf = (voicings: readonly KeyboardVoicing[]): Set<string> =>
  new Set(voicings.flatMap(({ keys }) => keys.map(({ degree }) => degree)));

/** Chords in any spelling that is read, with any hand. */
const anyChord = fc
  .record({
    symbol: symbolText.map(readChordSymbol).filter((symbol) => symbol !== null),
    style: fc.constantFrom(...STYLES),
    reachSemitones: fc.integer({ min: 12, max: 17 }),
  })
  .map((one) => ({ ...one, voicings: keyboardVoicings(one.symbol, one.style, one) }));

const always = (
  holds: (one: {
    symbol: ChordSymbol;
    style: KeysStyle;
    reachSemitones: number;
    voicings: readonly KeyboardVoicing[];
  }) => void,
): void => fc.assert(fc.property(anyChord, holds), { numRuns: 500 });

describe('the notes of a chord under a player’s fingers', () => {
  it('[KEYS-1] the fourth stands for a third that is suspended, the eleventh in a plain eleventh chord', () => {
    expect(forms('G7sus', 'rootless')).toEqual(['b7-9-4-5', '4-5-b7-9']);
    expect(forms('Csus2', 'shells').sort()).toEqual(['1-2-5', '1-5-2']);
    expect(forms('C11', 'shells')).toEqual(['1-11-b7']);
  });

  it('[KEYS-2] the sixth stands for a seventh, and the fifth in a triad', () => {
    expect(forms('Cm6', 'shells')).toEqual(['1-b3-6']);
    expect(forms('C', 'shells')).toEqual(['1-3-5']);
    expect(forms('Cdim', 'shells')).toEqual(['1-b3-b5']);
  });

  it.each([
    ['Cmaj7', '3-5-7-9'],
    ['C7', '3-13-b7-9'],
    ['C7b9', '3-5-b7-b9'],
    ['C7#5', '3-#5-b7-9'],
    ['C13', '3-13-b7-9'],
    ['C7b13', '3-b13-b7-9'],
    ['Cmaj7#11', '3-#11-7-9'],
    ['Cm11', 'b3-11-b7-9'],
    ['C7b5', '3-b5-b7-9'],
  ])('[KEYS-3] %s is %s: a colour that is named takes the finger of the fifth', (text, form) => {
    expect(forms(text, 'rootless')).toContain(form);
  });

  it('[KEYS-4] the ninth is the one that is named; a half-diminished chord has the eleventh; alt has every choice', () => {
    expect(forms('Bm7b5', 'rootless').sort()).toEqual(['b3-11-b5-b7', 'b7-b3-11-b5']);
    expect([...degreesOf(keyboardVoicings(chord('G7#9'), 'rootless'))].sort()).toEqual([
      '#9',
      '3',
      '5',
      'b7',
    ]);
    expect(forms('Galt', 'rootless').sort()).toEqual(
      [
        ...['3-b5-b7-b9', '3-b5-b7-#9', '3-#5-b7-b9', '3-#5-b7-#9'],
        ...['b7-b9-3-b5', 'b7-#9-3-b5', 'b7-b9-3-#5', 'b7-#9-3-#5'],
      ].sort(),
    );
  });

  it('[KEYS-4] the scale of the chord in its function colours what the symbol leaves open', () => {
    const colours = scaleColours({ tonic: 'G', notes: ['G', 'Ab', 'B', 'C', 'D', 'Eb', 'F'], avoid: ['C'] });
    expect(colours).toEqual(['b9', 'b13']);
    const voicings = keyboardVoicings(chord('G7'), 'rootless', { colours });
    expect(new Set(voicings.map(({ form }) => form))).toEqual(new Set(['b7-b9-3-b13', '3-b13-b7-b9']));
    expect(scaleColours({ tonic: 'D', notes: ['D', 'E', 'F', 'G', 'A', 'B', 'C'], avoid: [] })).toEqual([
      '9',
      '11',
      '13',
    ]);
  });

  it('[KEYS-4] a minor chord has the eleventh where its scale has no ninth to hold', () => {
    const colours = scaleColours({
      tonic: 'E',
      notes: ['E', 'F', 'G', 'A', 'B', 'C', 'D'],
      avoid: ['F', 'C'],
    });
    expect(colours).toEqual(['11']);
    const voicings = keyboardVoicings(chord('Em7'), 'rootless', { colours });
    expect(new Set(voicings.map(({ form }) => form))).toEqual(new Set(['b3-11-5-b7', 'b7-b3-11-5']));
  });

  it('[KEYS-4] so a dominant that leads to minor has the flat ninth of the key', () => {
    const symbols = ['Dm7b5', 'G7', 'Cm7'].map(chord);
    const key = makeKey('C', 'minor');
    const analysed = analyse(symbols.map((symbol) => ({ symbol, key, bars: 1 })));
    const dominant = analysed[1];
    const choice = dominant === undefined ? undefined : scaleChoices(chord('G7'), dominant)[0];
    if (choice === undefined) throw new Error('no scale for G7 in C minor');
    expect(scaleColours(choice)).toContain('b9');
  });

  it('is every note that a seventh chord names, but the root, a natural fifth, and an eleventh over a major third', () => {
    always(({ symbol, style, voicings }) => {
      const { degrees } = symbol;
      if (style !== 'rootless' || !degrees.some((degree) => /^(b7|7)$/.test(degree))) return;
      if (!degrees.includes('3') && !degrees.includes('b3')) return;
      const played = new Set(voicings.flatMap(({ keys }) => keys.map(({ pitch }) => pitch % 12)));
      const wanted = degrees.filter((degree) =>
        ['3', 'b3', '7', 'b7', 'b9', '#9', '9', '#5'].includes(degree),
      );
      for (const degree of wanted) {
        if (degree === '3' && degrees.includes('11') && !degrees.includes('13')) continue;
        expect(played).toContain((pitchClassOf(symbol.root) + ((degreeFifths(degree) * 7) % 12) + 12) % 12);
      }
    });
  });
});

describe('the left hand', () => {
  it('[KEYS-5] has root and third or root and seventh', () => {
    expect(forms('F7', 'pairs').sort()).toEqual(['1-3', '1-b7']);
    expect(forms('Ebmaj7', 'pairs').sort()).toEqual(['1-3', '1-7']);
    expect(forms('C', 'pairs').sort()).toEqual(['1-3', '1-5']);
  });

  it('[KEYS-6] has root, third and seventh, as a tenth in a hand that reaches one', () => {
    expect(forms('C7', 'shells')).toEqual(['1-3-b7']);
    expect(forms('C7', 'shells', TENTH_SEMITONES)).toContain('1-b7-3');
    expect(keyboardVoicings(chord('Bm(maj7)'), 'shells').map(({ style }) => style)).toContain('pairs');
  });

  it.each(['', 'm', 'maj', 'm7b5'].map((kind) => `${kind}${kind === 'm7b5' ? '' : '7'}`))(
    '[KEYS-7] has both forms of every root on the kind "%s"',
    (kind) => {
      for (const root of ROOTS) {
        const symbol = chord(root + kind);
        const bottoms = new Set(
          keyboardVoicings(symbol, 'rootless').map(({ keys }) => numberOf(keys[0]?.degree ?? '1')),
        );
        expect(bottoms, root).toEqual(new Set([3, 7]));
      }
    },
  );

  it('[KEYS-7] plays third and seventh and never the root of a chord that has a seventh or a sixth', () => {
    always(({ symbol, style, voicings }) => {
      const { degrees } = symbol;
      const hasSeventh = ['b7', '7', '6'].some((degree) => degrees.includes(degree));
      const hasThird = ['3', 'b3', '4', '2'].some((degree) => degrees.includes(degree));
      if (style !== 'rootless' || !hasSeventh || !hasThird || degrees.includes('bb7')) return;
      for (const { keys } of voicings) {
        expect(keys.map(({ degree }) => degree)).not.toContain('1');
        expect(
          keys.map(({ degree }) => numberOf(degree)).some((number) => [3, 4, 11, 2].includes(number)),
        ).toBe(true);
        expect(keys.map(({ degree }) => numberOf(degree)).some((number) => [6, 7].includes(number))).toBe(
          true,
        );
        expect((keys.at(-1)?.pitch ?? 0) - (keys[0]?.pitch ?? 0)).toBeLessThan(12);
      }
    });
  });

  it('[KEYS-8] plays triads and diminished sevenths whole, in every inversion', () => {
    expect(forms('C', 'rootless')).toEqual(['1-3-5', '3-5-1', '5-1-3']);
    expect(new Set(forms('Bdim7', 'rootless'))).toEqual(
      new Set(['1-b3-b5-bb7', 'b3-b5-bb7-1', 'b5-bb7-1-b3', 'bb7-1-b3-b5']),
    );
    expect(degreesOf(keyboardVoicings(chord('Cadd9#11'), 'rootless'))).toEqual(
      new Set(['3', '5', '9', '#11']),
    );
  });
});

describe('both hands', () => {
  it('[KEYS-9] have the bass with seventh or third on the left, the others on the right', () => {
    const voicings = keyboardVoicings(chord('C7'), 'twoHands');
    for (const { keys } of voicings) {
      const left = keys.filter(({ hand }) => hand === 'left').map(({ degree }) => degree);
      expect([['1', 'b7'].join(), ['1', '3'].join()]).toContain(left.join());
      expect(new Set(keys.map(({ degree }) => degree))).toEqual(new Set(['1', '3', 'b7', '13', '9']));
    }
    expect(new Set(voicings.map(({ keys }) => keys.at(-1)?.degree)).size).toBeGreaterThan(2);
  });

  it('[KEYS-10] put a bass after a slash below everything', () => {
    always(({ symbol, style, voicings }) => {
      if (symbol.bass === undefined || style === 'rootless') return;
      for (const voicing of voicings.filter((each) => each.style !== 'rootless')) {
        expect(voicing.keys[0]).toMatchObject({ note: symbol.bass, pitch: voicing.keys[0]?.pitch });
        expect((voicing.keys[0]?.pitch ?? 0) % 12).toBe(pitchClassOf(symbol.bass));
      }
    });
    expect(forms('C/E', 'pairs').sort()).toEqual(['3-1', '3-5']);
    expect(forms('C7/Bb', 'shells').sort()).toEqual(['b7-1-3', 'b7-3-1']);
    expect(degreesOf(keyboardVoicings(chord('C7/E'), 'twoHands'))).toEqual(new Set(['3', 'b7', '13', '1']));
    expect(keyboardVoicings(chord('F/G'), 'twoHands')[0]?.keys[0]).toMatchObject({ note: 'G', degree: '2' });
  });
});

const REGISTERS = {
  pairs: { left: [41, 69], right: [0, 0] },
  shells: { left: [41, 69], right: [0, 0] },
  rootless: { left: [48, 71], right: [0, 0] },
  twoHands: { left: [36, 60], right: [52, 81] },
} as const;

describe('every voicing', () => {
  it('[KEYS-11] lies in the register of its style', () => {
    always(({ voicings }) => {
      for (const { style, keys } of voicings) {
        for (const { hand, pitch } of keys) {
          const [low, high] = REGISTERS[style][hand];
          expect(pitch >= low && pitch <= high, `${style} ${hand} ${pitch}`).toBe(true);
        }
      }
    });
  });

  it('[KEYS-12] is clear: a minor third lies no lower than C3, a seventh no lower than F2', () => {
    always(({ voicings }) => {
      for (const { keys } of voicings) {
        expect(isClear(keys)).toBe(true);
        for (const one of keys) {
          for (const other of keys) {
            if (other.pitch - one.pitch === 3) expect(one.pitch).toBeGreaterThanOrEqual(48);
            if (other.pitch - one.pitch === 10) expect(one.pitch).toBeGreaterThanOrEqual(41);
          }
        }
      }
    });
  });

  it('[KEYS-13] is reached by two hands with five fingers each that don’t cross', () => {
    always(({ voicings, reachSemitones }) => {
      for (const { keys } of voicings) {
        const pitches = keys.map(({ pitch }) => pitch);
        expect(pitches).toEqual([...new Set(pitches)].sort((one, other) => one - other));
        expect(keys.map(({ hand }) => hand).join(' ')).toMatch(/^(left ?)*(right ?)*$/);
        for (const hand of ['left', 'right']) {
          const held = keys.filter((key) => key.hand === hand).map(({ pitch }) => pitch);
          expect(held.length).toBeLessThanOrEqual(5);
          if (held.length > 0)
            expect(Math.max(...held) - Math.min(...held)).toBeLessThanOrEqual(reachSemitones);
        }
      }
    });
  });

  it('[KEYS-14] is there for every chord, on the keys that its spelled degrees name', () => {
    always(({ symbol, voicings }) => {
      expect(voicings.length).toBeGreaterThan(0);
      for (const { keys, form } of voicings) {
        expect(form).toBe(keys.map(({ degree }) => degree).join('-'));
        for (const { pitch, degree, note } of keys) {
          expect(fifthsOf(note)).toBe(fifthsOf(symbol.root) + degreeFifths(degree));
          expect(pitch % 12).toBe(pitchClassOf(note));
        }
      }
    });
  });
});

/** How the trade writes the kinds whose notes are all played with a root below. */
const SEVENTHS_OF_KINDS: Readonly<Record<string, string>> = {
  dominant: '7',
  'major-seventh': 'maj7',
  'minor-seventh': 'm7',
  'half-diminished': 'ø',
  'major-minor': 'm(maj7)',
  'diminished-seventh': 'dim7',
  'augmented-seventh': '+7',
  'major-sixth': '6',
  'minor-sixth': 'm6',
};

describe('kinds of MusicXML 4.0', () => {
  const rows = kinds.rows.filter(({ kind }) => kind in SEVENTHS_OF_KINDS);

  it.each(rows)(
    '[KEYS-6] the shell of $kind has only notes of $semitones, third and seventh among them',
    (row) => {
      for (const root of ROOTS) {
        for (const { keys, style } of keyboardVoicings(chord(root + SEVENTHS_OF_KINDS[row.kind]), 'shells')) {
          if (style !== 'shells') continue;
          const above = keys.map(({ pitch }) => (pitch - pitchClassOf(root) + 120) % 12);
          expect(row.semitones).toEqual(expect.arrayContaining(above));
          expect(above).toEqual(expect.arrayContaining([0, row.semitones[1], row.semitones[3]]));
        }
      }
    },
  );

  it.each(kinds.rows.filter(({ semitones }) => semitones.length === 3))(
    '[KEYS-8] the triad $kind is played whole: $semitones',
    ({ kind, semitones }) => {
      const suffix =
        { augmented: '+', diminished: 'dim', major: '', minor: 'm', 'suspended-fourth': 'sus4' }[kind] ??
        'sus2';
      for (const { keys } of keyboardVoicings(chord(`Eb${suffix}`), 'rootless')) {
        const above = keys.map(({ pitch }) => (pitch - 3 + 120) % 12).sort((one, other) => one - other);
        expect(above).toEqual(semitones);
      }
    },
  );
});
