import type { FretShape } from '../shapes/fretboard/fret-shape.ts';
import type { KeyboardVoicing } from '../shapes/keyboard/keyboard-voicing.ts';
import type { GuideTone } from '../theory/harmony/guide-tones.ts';
import type { NumberedChord } from '../theory/harmony/number-view.ts';
import type { Numeral } from '../theory/harmony/numeral.ts';
import type { Part } from '../theory/instruments.ts';

/** What can stand under a player's chords; `chords` is nothing but them. */
export const HELP_KINDS = [
  'chords',
  'shapes',
  'voicings',
  'bass',
  'guides',
  'scales',
  'numerals',
  'numbers',
  'words',
  'form',
] as const;
export type HelpKind = (typeof HELP_KINDS)[number];

/** What a kind is called on a player's tablet. */
export const HELP_WORDS: Readonly<Record<HelpKind, string>> = {
  chords: 'chords alone',
  shapes: 'shapes',
  voicings: 'voicings',
  bass: 'root and approach',
  guides: 'guide tones',
  scales: 'scales',
  numerals: 'Roman numerals',
  numbers: 'numbers',
  words: 'notes over the bars',
  form: 'form and hits',
};

const FOR_ALL: readonly HelpKind[] = ['numerals', 'numbers', 'scales', 'guides', 'words', 'form'];

const FIRST: Readonly<Record<Part, readonly HelpKind[]>> = {
  guitar: ['shapes'],
  keys: ['voicings'],
  bass: ['bass', 'shapes'],
  horn: ['guides'],
  voice: ['words'],
  drums: ['form'],
  other: ['guides'],
};

/** What a player of this part may choose from, the usual one first; `chords` last. */
export const helpKindsFor = (part: Part): readonly HelpKind[] => [
  ...new Set<HelpKind>([...FIRST[part], ...FOR_ALL, 'chords']),
];

/** What stands under the chords of this part until its player chooses otherwise. */
export const usualHelp = (part: Part): HelpKind => FIRST[part][0] ?? 'chords';

/** What one chord tells one player. */
export type Help =
  | { readonly kind: 'shape'; readonly shape: FretShape }
  | { readonly kind: 'voicing'; readonly voicing: KeyboardVoicing }
  | {
      readonly kind: 'bass';
      readonly root: string;
      readonly fifth: string;
      /** The note before the next chord; null where the bass stays. */
      readonly approach: string | null;
    }
  | { readonly kind: 'guide'; readonly upper: GuideTone; readonly lower: GuideTone }
  | {
      readonly kind: 'scale';
      /** `F mixolydian`. */
      readonly tonic: string;
      readonly scale: string;
      readonly avoid: readonly string[];
    }
  | { readonly kind: 'numeral'; readonly numeral: Numeral; readonly reason: string }
  | { readonly kind: 'number'; readonly number: NumberedChord }
  /** What somebody of the band noted for the bar. */
  | { readonly kind: 'words'; readonly text: string }
  /** The bar in its phrase, from 1, and the chords that come early in it: `4&`. */
  | { readonly kind: 'form'; readonly bar: number; readonly of: number; readonly pushes: readonly string[] };

/** The help at its place in a bar. */
export interface PlacedHelp {
  /** Of the cell in the bar's music. */
  readonly cell: number;
  readonly help: Help;
}

/** Help for the bars of a pass, by bar index from 0. */
export type PassHelp = readonly (readonly PlacedHelp[])[];

/** Help for a leg: of its passes, and of the last one where it has other bars. */
export interface LegHelp {
  readonly leg: string;
  readonly pass: PassHelp;
  readonly lastPass?: PassHelp;
}
