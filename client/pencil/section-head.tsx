import type { Chart, Section } from '../../common/chart/chart.ts';
import { deleteSection, moveSection, renameSection } from '../../common/document/edit-chart.ts';
import type { ChartHandle } from '../state/board.ts';
import { makeId } from '../state/make-id.ts';
import { TextField } from './text-field.tsx';

/** The letter of a section, its length, and what can be done with the whole of it. */
export const SectionHead = ({
  handle,
  chart,
  section,
}: {
  readonly handle: ChartHandle;
  readonly chart: Chart;
  readonly section: Section;
}) => {
  const at = chart.sections.indexOf(section);
  const { doc, origin, canEdit } = handle;
  const name = section.label === '' ? 'without a name' : section.label;
  return (
    <header className="section-head">
      <TextField
        bare
        label={`name of section ${name}`}
        value={section.label}
        disabled={!canEdit}
        placeholder="name"
        onWrite={(label) => renameSection(doc, section.id, label, origin)}
      />
      <small className="dim">{section.bars.length === 1 ? '1 bar' : `${section.bars.length} bars`}</small>
      {canEdit && chart.sections.length > 1 && (
        <span className="section-tools">
          <button
            type="button"
            className="button-quiet"
            disabled={at === 0}
            aria-label={`section ${name} earlier`}
            onClick={() => moveSection(doc, section.id, chart.sections[at - 2]?.id ?? null, makeId, origin)}
          >
            ↑
          </button>
          <button
            type="button"
            className="button-quiet"
            disabled={at === chart.sections.length - 1}
            aria-label={`section ${name} later`}
            onClick={() => moveSection(doc, section.id, chart.sections[at + 1]?.id ?? null, makeId, origin)}
          >
            ↓
          </button>
          <button
            type="button"
            className="button-quiet"
            aria-label={`delete section ${name}`}
            onClick={() => deleteSection(doc, section.id, origin)}
          >
            delete
          </button>
        </span>
      )}
    </header>
  );
};
