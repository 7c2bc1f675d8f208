import { Note } from 'tonal';
import { describe, expect, it } from 'vitest';
import { keyboardPath } from '../../../../common/shapes/keyboard/keyboard-path.ts';
import type { KeyboardVoicing, KeysStyle } from '../../../../common/shapes/keyboard/keyboard-voicing.ts';
import {
  keyboardVoicings,
  type VoicingOptions,
} from '../../../../common/shapes/keyboard/keyboard-voicings.ts';
import { type ChordSymbol, readChordSymbol } from '../../../../common/theory/chord-symbol.ts';
import limits from '../../../published/voicings/low-interval-limits.json';
import { everyKind } from '../../theory/symbol-arbitrary.ts';

const midi = (note: string): number => Note.midi(note) ?? Number.NaN;

const ROOTS = ['C', 'Db', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B'];
const STYLES: readonly KeysStyle[] = ['pairs', 'shells', 'rootless', 'twoHands'];

/** The registers as RULES.md names them; common practice, no source. */
const REGISTERS = {
  pairs: { left: ['F2', 'A4'], right: [] },
  shells: { left: ['F2', 'A4'], right: [] },
  rootless: { left: ['C3', 'B4'], right: [] },
  twoHands: { left: ['C2', 'C4'], right: ['E3', 'A5'] },
} as const;
const BOUNDS = Object.fromEntries(
  Object.entries(REGISTERS).map(([style, hands]) => [
    style,
    { left: hands.left.map(midi), right: hands.right.map(midi) },
  ]),
);
/** The lowest pitch of each interval; Sweetwater, inSync glossary, "Low Interval Limit". */
const LOWEST = new Map(limits.rows.map(({ semitones, lowest }) => [semitones, midi(lowest)]));

const ONE = everyKind(1);
const TWO = everyKind(2);

const chord = (text: string): ChordSymbol => {
  const symbol = readChordSymbol(text);
  if (symbol === null) throw new Error(`"${text}" is not read`);
  return symbol;
};

/** What is wrong with a voicing, in words; nothing where it keeps the limits. */
const faultsOf = ({ style, keys }: KeyboardVoicing): string[] => {
  const beyond = keys.flatMap(({ hand, pitch }) => {
    const [low = Number.NaN, high = Number.NaN] = BOUNDS[style]?.[hand] ?? [];
    return pitch >= low && pitch <= high ? [] : [`${pitch} is no key of the ${hand} hand in ${style}`];
  });
  const blurred = keys.flatMap((lower) =>
    keys.flatMap((upper) => {
      const lowest = LOWEST.get(upper.pitch - lower.pitch);
      return lowest === undefined || lower.pitch >= lowest ? [] : [`${lower.pitch}-${upper.pitch} blurs`];
    }),
  );
  const wide = (['left', 'right'] as const).flatMap((hand) => {
    const held = keys.filter((key) => key.hand === hand).map(({ pitch }) => pitch);
    const span = Math.max(...held) - Math.min(...held);
    return held.length > 5 || span > 14 ? [`the ${hand} hand holds ${held.join(' ')}`] : [];
  });
  return [...beyond, ...blurred, ...wide];
};

const faultsIn = (text: string, options: VoicingOptions = {}): string[] =>
  STYLES.flatMap((style) => {
    const voicings = keyboardVoicings(chord(text), style, options);
    if (voicings.length === 0) return [`${text}, ${style}: no voicing`];
    return voicings.flatMap((voicing) => faultsOf(voicing).map((fault) => `${text}, ${style}: ${fault}`));
  });

describe('every kind of chord that is read', () => {
  it('is of more kinds than anybody lists by hand', () => {
    expect(ONE.length).toBeGreaterThan(500);
    expect(TWO.length).toBeGreaterThan(ONE.length);
  });

  it('[KEYS-11] [KEYS-12] [KEYS-13] [KEYS-14] keeps the limits on all twelve roots, in all styles', () => {
    expect(ONE.flatMap((kind) => ROOTS.flatMap((root) => faultsIn(root + kind)))).toEqual([]);
  });

  it('[KEYS-11] [KEYS-12] [KEYS-13] keeps them with two additions, root after root', () => {
    expect(TWO.flatMap((kind, at) => faultsIn((ROOTS[at % ROOTS.length] ?? '') + kind))).toEqual([]);
  });

  it('[KEYS-10] [KEYS-11] [KEYS-12] keeps them over every bass', () => {
    const basses = everyKind(0).flatMap((kind) =>
      ROOTS.flatMap((root) => ROOTS.map((bass) => `${root}${kind}/${bass}`)),
    );
    expect(basses.flatMap((text) => faultsIn(text))).toEqual([]);
  });

  it.each([['b9', 'b13'], ['9', '11', '13'], ['9', '#11', '13'], ['#9', 'b13'], ['11'], []])(
    '[KEYS-4] [KEYS-11] [KEYS-12] keeps them in the colours of a scale: %s %s %s',
    (...colours) => {
      const texts = everyKind(0).flatMap((kind) => ROOTS.map((root) => root + kind));
      expect(texts.flatMap((text) => faultsIn(text, { colours }))).toEqual([]);
    },
  );

  it.each(STYLES)('[KEYS-16] a path through all of them keeps them too, in %s', (style) => {
    const steps = ONE.map((kind, at) => ({ symbol: chord((ROOTS[(at * 5) % ROOTS.length] ?? '') + kind) }));
    const path = keyboardPath(steps, style, { closed: true });
    expect(path.filter((voicing) => voicing === null)).toEqual([]);
    expect(path.flatMap((voicing) => (voicing === null ? [] : faultsOf(voicing)))).toEqual([]);
  });
});
