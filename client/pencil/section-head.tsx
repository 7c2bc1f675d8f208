import type { MouseEvent } from 'react';
import type { Chart, Section } from '../../common/chart/chart.ts';
import { duplicateSection } from '../../common/document/duplicate-section.ts';
import { deleteSection, moveSection, renameSection } from '../../common/document/edit-chart.ts';
import type { ChartHandle } from '../state/chart-handle.ts';
import { makeId } from '../state/make-id.ts';
import type { Editing } from './editing.ts';
import { keepFocus, leaveField } from './keep-focus.ts';
import { copyLabel } from './neighbours.ts';
import { TextField } from './text-field.tsx';

/** The letter of a section, its length, and what can be done with the whole of it. */
export const SectionHead = ({ handle, chart, section, editing }: SectionHeadProps) => {
  const at = chart.sections.indexOf(section);
  const { doc, origin, canEdit } = handle;
  const name = section.label === '' ? 'without a name' : section.label;
  const bars = section.bars.length === 1 ? '1 bar' : `${section.bars.length} bars`;
  const move = (after: Section | undefined) => (event: MouseEvent<HTMLElement>) => {
    editing.settle();
    moveSection(doc, section.id, after?.id ?? null, makeId, origin);
    keepFocus(event.currentTarget);
  };
  return (
    <header className="section-head">
      <TextField
        bare
        fit={1}
        label={`name of section ${name}`}
        value={section.label}
        disabled={!canEdit}
        placeholder="name"
        onWrite={(label) => renameSection(doc, section.id, label, origin)}
      />
      {canEdit ? (
        <button
          type="button"
          className="button-quiet section-count"
          aria-label={`choose all ${bars} of ${name}`}
          disabled={section.bars.length === 0}
          onClick={() => editing.chooseAll(section.bars.map(({ id }) => id))}
        >
          {bars}
        </button>
      ) : (
        <small className="dim">{bars}</small>
      )}
      {canEdit && (
        <span className="section-tools">
          <button
            type="button"
            className="button-quiet"
            disabled={at === 0}
            aria-label={`section ${name} up`}
            onClick={move(chart.sections[at - 2])}
          >
            ↑
          </button>
          <button
            type="button"
            className="button-quiet"
            disabled={at === chart.sections.length - 1}
            aria-label={`section ${name} down`}
            onClick={move(chart.sections[at + 1])}
          >
            ↓
          </button>
          <button
            type="button"
            className="button-quiet"
            aria-label={`duplicate section ${name}`}
            onClick={() => {
              editing.settle();
              const copy = duplicateSection(doc, section.id, copyLabel(chart, section.label), makeId, origin);
              const copied = handle.chart.get()?.chart.sections.find(({ id }) => id === copy);
              if (copied) editing.chooseAll(copied.bars.map(({ id }) => id));
            }}
          >
            <span aria-hidden="true">‖+</span>
            <span className="pencil-word">duplicate</span>
          </button>
          <button
            type="button"
            className="button-quiet"
            aria-label={`delete section ${name}`}
            onClick={() => {
              leaveField();
              editing.settle();
              deleteSection(doc, section.id, origin);
            }}
          >
            <span aria-hidden="true">✕</span>
            <span className="pencil-word">delete</span>
          </button>
        </span>
      )}
    </header>
  );
};

interface SectionHeadProps {
  readonly handle: ChartHandle;
  readonly chart: Chart;
  readonly section: Section;
  readonly editing: Editing;
}
