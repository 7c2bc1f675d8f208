import type * as Y from 'yjs';
import { readChartDocument } from '../../common/document/chart-document.ts';
import { readLostSpotsSaid } from '../../common/document/lost-spots-said.ts';
import { readNotes } from '../../common/document/notes.ts';
import { isNewerThanThisPage } from '../../common/document/schema-version.ts';
import type { Timers } from './board-parts.ts';
import type { ChartState, Cursor, Editor, HeldChart } from './chart-handle.ts';
import { cursorsFrom } from './cursors.ts';
import { derive } from './derive.ts';
import { documentView } from './document-view.ts';
import { freshMarks } from './fresh-marks.ts';
import type { OpenDocument } from './open-document.ts';
import { ownSteps } from './own-steps.ts';
import { awarenessStates } from './presence.ts';

const chartStateOf = (doc: Y.Doc): ChartState => ({
  chart: readChartDocument(doc),
  said: readLostSpotsSaid(doc),
  notes: readNotes(doc),
});

/**
 * A chart that is open: its state, one's own undo, and what others are doing in it.
 * @param mayEdit whether charts may be written now
 */
export const openChartHandle = (
  id: string,
  opened: OpenDocument,
  first: Editor,
  mayEdit: () => boolean,
  timers: Timers,
): HeldChart => {
  const { doc, room } = opened;
  const origin = { chart: id };
  let me = first;
  let myBar: string | null = null;

  const view = documentView(doc, chartStateOf);
  const steps = ownSteps(doc, origin);
  const states = awarenessStates(room.awareness);
  // Somebody who typed and left again is still known by name.
  const writers = new Map<number, { readonly name: string; readonly colour: number }>();
  const rememberWriters = () => {
    for (const [client, state] of states.get()) {
      const { name, colour } = state;
      if (typeof name === 'string' && client !== doc.clientID) {
        writers.set(client, { name, colour: typeof colour === 'number' ? colour : 0 });
      }
    }
  };
  const stopRemembering = states.subscribe(rememberWriters);
  const fresh = freshMarks(
    doc,
    (transaction) => transaction.origin === room.remoteOrigin && room.state.get().synced,
    (client) => writers.get(client) ?? null,
    timers.nowMs,
    timers.after,
  );
  const showMyself = () => room.awareness.setLocalState({ ...me, bar: myBar });
  showMyself();

  const canEdit = () => mayEdit() && !isNewerThanThisPage(doc);

  return {
    id,
    doc,
    chart: derive([view, opened.here], (state, here): ChartState | null => (here ? state : null)),
    saved: opened.saved,
    get canEdit() {
      return canEdit();
    },
    origin,
    undo: () => (canEdit() ? steps.undo() : null),
    redo: () => (canEdit() ? steps.redo() : null),
    undoState: steps.state,
    cursors: derive([states], (all): readonly Cursor[] => cursorsFrom(all, first.member)),
    setCursor: (bar) => {
      if (bar === myBar) return;
      myBar = bar;
      showMyself();
    },
    fresh,
    introduce: (next) => {
      me = next;
      showMyself();
    },
    close: () => {
      stopRemembering();
      fresh.close();
      steps.close();
      opened.close();
    },
  };
};
