import type { BarMusic } from '../chart/bar-music.ts';
import type { HarmonyChord } from '../form/pass-harmony.ts';
import type { Road, RoadBar } from '../form/road.ts';
import { goesRound, type LegHarmony, roadHarmony } from '../form/road-harmony.ts';
import type { NoteNames } from '../theory/note-name.ts';
import type { Reading } from '../theory/transpose.ts';
import { formHelp, wordsHelp } from './bar-help.ts';
import { bassHelp } from './bass-help.ts';
import { guideHelp } from './guide-help.ts';
import type { Help, LegHelp, PassHelp } from './help.ts';
import { numberHelp, numeralHelp } from './numeral-help.ts';
import type { PassChords } from './pass-chords.ts';
import { scaleHelp } from './scale-help.ts';
import { type ShapeWishes, shapeHelp } from './shape-help.ts';
import { type VoicingWishes, voicingHelp } from './voicing-help.ts';

/** What a player wants to know of each chord. */
export type HelpWish =
  | { readonly kind: 'bass' | 'guides' | 'scales' | 'numbers' }
  /** Its reasons call notes as the reader does; as in English where that is left out. */
  | { readonly kind: 'numerals'; readonly names?: NoteNames }
  | { readonly kind: 'form' }
  | { readonly kind: 'words'; readonly notes: ReadonlyMap<string, readonly string[]> }
  | ({ readonly kind: 'shapes' } & ShapeWishes)
  | ({ readonly kind: 'voicings' } & VoicingWishes);

/**
 * What stands under each chord of a road for one player, leg by leg, in the key in which they read.
 * @param reading the part's, with what the evening adds
 * @param music what the bars mean now, by id, where the chart was corrected since the road was made
 */
export const roadHelp = (
  road: Road,
  wish: HelpWish,
  reading: Reading,
  music: ReadonlyMap<string, BarMusic> = new Map(),
): LegHelp[] => {
  if (wish.kind === 'words') return everyLeg(road, (bars) => wordsHelp(bars, wish.notes));
  if (wish.kind === 'form') {
    const musicOf = (bar: RoadBar): BarMusic => music.get(bar.id) ?? bar.content.music;
    return everyLeg(road, (bars) => formHelp(bars, musicOf));
  }
  const harmony = roadHarmony(road, reading, music, wish.kind === 'numerals' ? wish.names : undefined);
  // Legs that play the same chords share them; what was found for one stands for the others.
  const found = new Map<string, Map<readonly HarmonyChord[], readonly (Help | null)[]>>();
  const helpOf = (pass: PassChords, barCount: number): PassHelp => {
    const where = `${pass.goesRound} ${pass.after?.symbol.typed ?? ''}`;
    const known = found.get(where) ?? new Map<readonly HarmonyChord[], readonly (Help | null)[]>();
    found.set(where, known);
    const helps = known.get(pass.chords) ?? helpsOf(pass, wish);
    known.set(pass.chords, helps);
    return byBar(pass.chords, helps, barCount);
  };
  return road.legs.map((leg, index): LegHelp => {
    const { pass, lastPass } = harmony[index] as LegHarmony;
    const next = harmony[index + 1]?.pass.chords[0] ?? null;
    const round = goesRound(leg);
    const after = round ? (pass.chords[0] ?? null) : next;
    return {
      leg: leg.id,
      pass: helpOf({ chords: pass.chords, goesRound: round, after }, leg.bars.length),
      ...(lastPass
        ? {
            lastPass: helpOf(
              { chords: lastPass.chords, goesRound: false, after: next },
              leg.lastBars?.length ?? 0,
            ),
          }
        : {}),
    };
  });
};

const everyLeg = ({ legs }: Road, helpOf: (bars: readonly RoadBar[]) => PassHelp): LegHelp[] =>
  legs.map(({ id, bars, lastBars }) => ({
    leg: id,
    pass: helpOf(bars),
    ...(lastBars ? { lastPass: helpOf(lastBars) } : {}),
  }));

type ChordWish = Exclude<HelpWish, { readonly kind: 'words' | 'form' }>;

const helpsOf = (pass: PassChords, wish: ChordWish): readonly (Help | null)[] => {
  switch (wish.kind) {
    case 'shapes':
      return shapeHelp(pass, wish);
    case 'voicings':
      return voicingHelp(pass, wish);
    case 'bass':
      return bassHelp(pass);
    case 'guides':
      return guideHelp(pass);
    case 'scales':
      return scaleHelp(pass);
    case 'numerals':
      return numeralHelp(pass);
    case 'numbers':
      return numberHelp(pass);
  }
};

const byBar = (
  chords: readonly HarmonyChord[],
  helps: readonly (Help | null)[],
  barCount: number,
): PassHelp => {
  const bars: { cell: number; help: Help }[][] = Array.from({ length: barCount }, () => []);
  chords.forEach(({ barIndex, cell }, index) => {
    const help = helps[index];
    if (help) bars[barIndex]?.push({ cell, help });
  });
  return bars;
};
