/**
 * A chart as its writer wrote it. The text of each bar is the truth; what it means is derived
 * (`read-bars`), so that nothing a person typed is ever lost.
 */
export interface Chart {
  readonly head: ChartHead;
  readonly sections: readonly Section[];
  readonly road: readonly RoadLine[];
  readonly lines: readonly KeptLine[];
}

export const HEAD_WORDS = ['title', 'by', 'key', 'time', 'tempo', 'feel', 'count'] as const;
export type HeadWord = (typeof HEAD_WORDS)[number];

/** Values as typed, blanks trimmed; a word that was not written is absent. */
export type ChartHead = Readonly<Partial<Record<HeadWord, string>>>;

/** A named stretch of bars. `label` is '' for music written before any `[name]`. */
export interface Section {
  readonly id: string;
  readonly label: string;
  readonly bars: readonly Bar[];
}

export interface Bar {
  readonly id: string;
  /** Chart text between the bar lines, for example `"break" Fm7 r r r`. */
  readonly text: string;
  /** The sign at its left: '' (a plain bar line) or '|:'. */
  readonly left: string;
  /** The sign at its right: '' (plain), '||', '|]', ':|', or with times ':|x3'. */
  readonly right: string;
  /** Numbers of the ending that begins at this bar, as '1.' or '1.2.'; '' where none begins. */
  readonly ending: string;
  /** The writer's line ends after this bar. */
  readonly lineEnd: boolean;
}

/** One line of the road map, as typed: `Solos: A B open "guitar, tenor"`. */
export interface RoadLine {
  readonly id: string;
  readonly name: string;
  /** `A B`, `A B A al Coda`, `last 4`. */
  readonly sections: string;
  /** '' (once), `x2`, `open`, `vamp`, `trade 4`. */
  readonly times: string;
  /** The words in quotes, without the quotes; '' where there are none. Words left open begin with their quote. */
  readonly words: string;
}

/** A line that is kept as typed: an unreadable line, a remark, or a header line nobody knows. */
export interface KeptLine {
  readonly id: string;
  readonly text: string;
  /**
   * What it stands after: the id of a bar, section, road line or kept line; the word of a header line ('title', 'key' …);
   * 'road' right below the words `road:`; '' at the top of the chart.
   */
  readonly after: string;
}
