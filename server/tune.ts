import { readChartDocument } from '../common/document/chart-document.ts';
import type { Road } from '../common/form/road.ts';
import { problemsOf, toLookAt } from '../common/form/to-look-at.ts';
import { unroll } from '../common/form/unroll.ts';
import type { Written } from '../common/stage/taken-arrangement.ts';
import type { Rooms } from './rooms.ts';

/** A chart as the stage plays it. */
interface Tune {
  readonly id: string;
  readonly title: string;
  /** Its key as written; '' where none is given. */
  readonly key: string;
  readonly road: Road;
}

/** The tune in the document `chart.<id>` of a band; null where there are no bars to play. */
export const readTune = (rooms: Rooms, band: string, id: string): Tune | null => {
  const chart = rooms.open(band, `chart.${id}`).read(readChartDocument);
  const { road } = unroll(chart);
  if (road.legs.length === 0) return null;
  return { id, title: chart.head.title ?? '', key: chart.head.key ?? '', road };
};

/** The arrangement in the document `chart.<id>` of a band, and whether it is finished. */
export const readWritten = (rooms: Rooms, band: string, id: string): Written => {
  const chart = rooms.open(band, `chart.${id}`).read(readChartDocument);
  const { road } = unroll(chart);
  return {
    road: road.legs.length === 0 ? null : road,
    isUnfinished: toLookAt(problemsOf(chart)).count > 0,
  };
};
