import type { ChartHead, HeadWord } from './chart.ts';

/** Where something stands in the text as given: line and column from 1, in UTF-16 units. */
export interface Spot {
  readonly line: number;
  readonly column: number;
}

/** A bar being read: as in the chart, with where its parts stand, and without an id. */
export interface DraftBar {
  text: string;
  left: string;
  right: string;
  ending: string;
  lineEnd: boolean;
  spots: { bar: Spot; tokens: Spot[]; left?: Spot; right: Spot; ending?: Spot };
}

export interface DraftSection {
  readonly label: string;
  readonly spot: Spot;
  readonly bars: DraftBar[];
}

export interface DraftRoadLine {
  readonly name: string;
  readonly sections: string;
  readonly times: string;
  readonly words: string;
  readonly spot: Spot;
}

/** A fixed place that a kept line can stand after: the top (''), a header line, or the words `road:`. */
export type FixedPlace = '' | HeadWord | 'road';

export interface DraftLine {
  readonly text: string;
  readonly spot: Spot;
  readonly after: FixedPlace | DraftSection | DraftBar | DraftRoadLine;
}

/** A text as it was read, before ids are given. */
export interface DraftChart {
  head: { -readonly [Word in keyof ChartHead]: ChartHead[Word] };
  readonly headSpots: Map<HeadWord, Spot>;
  readonly sections: DraftSection[];
  readonly road: DraftRoadLine[];
  readonly lines: DraftLine[];
}
