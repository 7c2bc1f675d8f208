import { announced } from '../../common/stage/announce.ts';
import { dynamicAt, roadAt, semitonesAt, soloAt, tempoAt } from '../../common/stage/in-force.ts';
import { locate } from '../../common/stage/locate.ts';
import type { Performance } from '../../common/stage/perform.ts';
import { barsAround } from '../../common/stage/upcoming.ts';
import type { StandSource } from './stand-source.ts';

/** What a stand asks, answered from the take that is on. */
export const performanceSource = (performance: Performance): StandSource => ({
  locate: (tMs) => locate(performance, tMs),
  barsAround: (tMs, before, after) => barsAround(performance, tMs, before, after),
  announced: (tMs) => announced(performance, tMs),
  roadAt: (tMs) => roadAt(performance, tMs),
  tempoAt: (tMs) => tempoAt(performance, tMs),
  semitonesAt: (tMs) => semitonesAt(performance, tMs),
  soloAt: (tMs) => soloAt(performance, tMs),
  dynamicAt: (tMs) => dynamicAt(performance, tMs),
});
