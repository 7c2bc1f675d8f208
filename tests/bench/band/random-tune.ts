import { DEMO_BAND } from '../../../common/demo/demo-band.ts';

/** A chart as text, and the tempo it is played at here. */
export interface Tune {
  readonly text: string;
  readonly tempoBpm: number;
}

const CHORDS = ['Eb7', 'Ab7', 'Bb7', 'Cm7', 'Fm7', 'Gm7b5', 'C7', 'Dbmaj7'];
const WORDS = ['"break 1" ', '"break 2" ', '"hold" ', '"fill" ', '"stop-time" ', '"rit" ', '"a tempo" '];
const METRES = ['4/4', '4/4', '4/4', '3/4', '2/4', '5/4'];
const PASSES = ['', ' x2', ' open', ' open', ' vamp'];
/** As quick as the stage goes, so that a tune is soon over. */
const QUICK_BPM = [300, 360, 400];

/** One of the demo band's tunes, or one that nobody wrote: one to three sections under two to four legs. */
export const randomTune = (random: () => number): Tune => {
  const upTo = (count: number) => Math.floor(random() * count);
  const one = <Item>(items: readonly Item[]): Item => items[upTo(items.length)] as Item;
  const tempoBpm = one(QUICK_BPM);
  if (random() < 0.25) return { text: one(DEMO_BAND.charts).text, tempoBpm };
  const section = (letter: string) => {
    const bars = Array.from(
      { length: 2 + upTo(7) },
      () => `${random() < 0.08 ? one(WORDS) : ''}${one(CHORDS)}${random() < 0.3 ? ` ${one(CHORDS)}` : ''}`,
    );
    const lines = [bars.slice(0, 4), bars.slice(4)].filter(({ length }) => length > 0);
    return `[${letter}]\n${lines.map((line) => `| ${line.join(' | ')} |`).join('\n')}\n`;
  };
  const letters = ['A', 'B', 'C'].slice(0, 1 + upTo(3));
  const legs = ['Head', 'Solos', 'Shout', 'Head out'].slice(0, 2 + upTo(3));
  const road = legs.map(
    (leg) => `  ${leg}: ${letters.slice(0, 1 + upTo(letters.length)).join(' ')}${one(PASSES)}`,
  );
  const head = `title: Nobody’s tune\nkey: Eb\ntime: ${one(METRES)}\ntempo: ${tempoBpm}\ncount: 1\n`;
  return { text: `${head}\n${letters.map(section).join('\n')}\nroad:\n${road.join('\n')}\n`, tempoBpm };
};
