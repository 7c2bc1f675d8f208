import { useState } from 'react';
import type { Chart } from '../../common/chart/chart.ts';
import { addRoadLine } from '../../common/document/edit-chart.ts';
import { count } from '../../common/form/count.ts';
import { roadLength, USUAL_ASSUMPTIONS } from '../../common/form/length.ts';
import { unroll } from '../../common/form/unroll.ts';
import { minutesWords } from '../stand/place-words.ts';
import type { ChartHandle } from '../state/chart-handle.ts';
import { makeId } from '../state/make-id.ts';
import { RoadLeg } from './road-leg.tsx';

/** The road map beside the music, with how long each leg lasts. */
export const RoadMap = ({ handle, chart }: { readonly handle: ChartHandle; readonly chart: Chart }) => {
  const [open, setOpen] = useState<string | null>(null);
  const { road, problems } = unroll(chart);
  const { legs, ms, assumed } = roadLength(road);
  const { openPasses, vampPasses } = USUAL_ASSUMPTIONS;
  const { doc, origin, canEdit } = handle;
  const lengthOf = (id: string): string => {
    const length = legs.find(({ leg }) => leg === id);
    if (length === undefined) return 'not played';
    const time = minutesWords(length.ms);
    if (!length.assumed) return `${count(length.bars, 'bar')}, ${time}`;
    const passes = road.legs.find((leg) => leg.id === id)?.passes;
    return `about ${time} for ${passes === 'vamp' ? vampPasses : openPasses} times`;
  };
  const add = () => {
    const sections = chart.sections.map(({ label }) => label).filter((label) => label !== '');
    const name = chart.road.length === 0 ? 'Head' : 'Leg';
    const after = chart.road.at(-1)?.id ?? null;
    const line = { name, sections: sections.join(' '), times: '', words: '' };
    setOpen(addRoadLine(doc, line, after, makeId, origin));
  };
  return (
    <section className="road-map" aria-label="road map">
      <h2>Road map</h2>
      {chart.road.length === 0 && (
        <p className="dim small">
          None is written, so the usual one is played:{' '}
          {road.legs.map(({ name }) => name).join(', ') || 'nothing yet'}.
        </p>
      )}
      <ol className="road-legs">
        {chart.road.map((line) => (
          <RoadLeg
            key={line.id}
            handle={handle}
            road={chart.road}
            line={line}
            length={lengthOf(line.id)}
            problems={problems.filter(({ id }) => id === line.id).map(({ words }) => words)}
            isOpen={open === line.id}
            onOpen={setOpen}
          />
        ))}
      </ol>
      <p className="road-foot">
        {canEdit && (
          <button type="button" className="button" onClick={add}>
            add a leg
          </button>
        )}
        {road.legs.length > 0 && (
          <small className="dim">
            {assumed ? 'about ' : ''}
            {minutesWords(ms)} in all
            {assumed ? `: what is open ${openPasses} times, a vamp ${vampPasses} times` : ''}
          </small>
        )}
      </p>
    </section>
  );
};
