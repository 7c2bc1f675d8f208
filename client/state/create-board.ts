import { readBook, setMember } from '../../common/document/book-document.ts';
import { leadingOf, readLeading } from '../../common/document/leading-document.ts';
import { isNewerThanThisPage } from '../../common/document/schema-version.ts';
import { readStage } from '../../common/document/stage-document.ts';
import { mayWrite } from '../../common/protocol/roles.ts';
import { type Performance, perform } from '../../common/stage/perform.ts';
import type { Board, ChartHandle, LinkState, Person, StageState } from './board.ts';
import type { BoardParts } from './board-parts.ts';
import { type HeldChart, openChartHandle } from './chart-handle.ts';
import { derive } from './derive.ts';
import { documentView } from './document-view.ts';
import { keepEntry } from './keep-entry.ts';
import { type Observable, settable } from './observable.ts';
import { type OpenDocument, openDocument } from './open-document.ts';
import { awarenessStates, peopleFrom, pickColour } from './presence.ts';

/** A board with what the page's frame needs besides. */
export interface OpenBoard extends Board {
  /** A sentence about something that will not mend itself; null when all is well. */
  readonly trouble: Observable<string | null>;
  /** How the book is saved. */
  readonly bookSaved: Observable<'saved' | 'saving' | 'kept'>;
  /** The book is here: from the relay or from this tablet. */
  readonly bookHere: Observable<boolean>;
  readonly close: () => void;
}

/** The clock's error is told to others when it has changed by more than this. */
const TELL_ERROR_MS = 1;

/** Opens a band: its book, its stage, and charts as they are asked for. */
export const createBoard = (parts: BoardParts): OpenBoard => {
  const { role, member, live, clock, timers } = parts;
  const writes = (document: string) => mayWrite(role, document);
  const bookFile = openDocument(parts, 'book', !writes('book'));
  const stageFile = openDocument(parts, 'stage', true);
  const charts = new Map<string, HeldChartCount>();
  const trouble = settable<string | null>(null);
  const ends: (() => void)[] = [];
  // Set only when it changes: the stage's document changes with every cue.
  const leading = settable(readLeading(stageFile.doc));
  leadingOf(stageFile.doc).observe(() => leading.set(readLeading(stageFile.doc)));

  // Who is here.
  const states = awarenessStates(stageFile.room.awareness);
  const people = derive([states], (all): readonly Person[] => peopleFrom(all, { member, role }));
  let point: Person['point'] = null;
  let toldErrorMs: number | null = null;
  const colour = () =>
    pickColour(member, new Set(people.get().flatMap((one) => (one.member < member ? [one.colour] : []))));
  const introduce = () => {
    const { name, part } = parts.me.get();
    toldErrorMs = clock.clock.get().errorMs;
    const me = { member, name, part, role, colour: colour() };
    stageFile.room.awareness.setLocalState({ ...me, errorMs: toldErrorMs, point });
    for (const { held } of charts.values()) held.introduce({ member, name, colour: me.colour });
  };
  introduce();
  ends.push(parts.me.subscribe(introduce));
  ends.push(
    states.subscribe(() => {
      if (states.get().get(stageFile.doc.clientID)?.['colour'] !== colour()) introduce();
    }),
    clock.clock.subscribe(() => {
      const { errorMs } = clock.clock.get();
      if (Math.abs((errorMs ?? 1e6) - (toldErrorMs ?? 1e6)) > TELL_ERROR_MS) introduce();
    }),
  );

  // The band knows its members; a reader leaves no trace.
  const signBook = () => {
    if (!writes('book') || !bookFile.room.state.get().synced || isNewerThanThisPage(bookFile.doc)) return;
    const { name, part } = parts.me.get();
    if (name !== '') setMember(bookFile.doc, { id: member, name, part });
  };
  ends.push(parts.me.subscribe(signBook), bookFile.room.state.subscribe(signBook));

  // A connection that is back takes the documents up at once; one known to be gone lets them go.
  const files = (): OpenDocument[] => [bookFile, stageFile, ...[...charts.values()].map(({ file }) => file)];
  const watchLive = () => {
    const { state } = live.state.get();
    if (state === 'on') for (const { room } of files()) room.connect();
    else if (state === 'away') for (const { room } of files()) room.drop();
  };
  ends.push(live.state.subscribe(watchLive));
  const watchClosed = (file: OpenDocument) =>
    file.room.state.subscribe(() => {
      const { closed } = file.room.state.get();
      if (closed !== null) trouble.set(closed);
    });
  ends.push(watchClosed(bookFile), watchClosed(stageFile));
  ends.push(
    bookFile.here.subscribe(() => {
      if (isNewerThanThisPage(bookFile.doc)) trouble.set(TOO_OLD);
    }),
  );

  const open = (id: string): HeldChartCount => {
    const known = charts.get(id);
    if (known) return known;
    const name = `chart.${id}`;
    const file = openDocument(parts, name, !writes(name));
    const me = { member, name: parts.me.get().name, colour: colour() };
    const mayEdit = () => writes(name) && leading.get().locked !== true;
    const held = openChartHandle(id, file, me, mayEdit, timers);
    const watches = [
      watchClosed(file),
      // What was typed goes to the relay even when nobody looks at the chart any more.
      file.saved.subscribe(() => closeIfDone(id)),
    ];
    if (writes('book')) watches.push(keepEntry(bookFile.doc, id, file.doc));
    const entry: HeldChartCount = { file, held, holders: 0, watches };
    charts.set(id, entry);
    return entry;
  };
  const closeIfDone = (id: string) => {
    const entry = charts.get(id);
    if (!entry || entry.holders > 0 || entry.file.saved.get() !== 'saved') return;
    charts.delete(id);
    for (const end of entry.watches) end();
    entry.held.close();
  };
  const openChart = (id: string): ChartHandle => {
    const entry = open(id);
    entry.holders += 1;
    let released = false;
    return {
      ...entry.held,
      get canEdit() {
        return entry.held.canEdit;
      },
      release: () => {
        if (released) return;
        released = true;
        entry.holders -= 1;
        // A view that closes while another opens the same chart must not make it load twice.
        timers.after(2000, () => closeIfDone(id));
      },
    };
  };
  let performance: Performance | null = null;
  for (const name of parts.unsent.get()) {
    if (name.startsWith('chart.') && writes(name)) open(name.slice('chart.'.length));
  }

  return {
    band: parts.band,
    role,
    member,
    book: documentView(bookFile.doc, readBook),
    bookDoc: bookFile.doc,
    bookSaved: bookFile.saved,
    bookHere: bookFile.here,
    stage: documentView(stageFile.doc, (doc): StageState => {
      const take = readStage(doc);
      performance = take && perform(take, performance);
      return { take, performance };
    }),
    leading,
    people,
    link: derive(
      [live.state, trouble],
      (state, words): LinkState =>
        state.state === 'away' && words !== null ? { state: 'closed', words } : state,
    ),
    trouble,
    sharedNow: clock.sharedNow,
    onReseek: clock.onReseek,
    clock: clock.clock,
    openChart,
    call: live.call,
    takeBack: live.takeBack,
    lead: live.lead,
    point: (at) => {
      point = at;
      introduce();
    },
    close: () => {
      for (const end of ends) end();
      for (const { held, watches } of charts.values()) {
        for (const end of watches) end();
        held.close();
      }
      bookFile.close();
      stageFile.close();
      live.close();
    },
  };
};

interface HeldChartCount {
  readonly file: OpenDocument;
  readonly held: HeldChart;
  holders: number;
  readonly watches: readonly (() => void)[];
}

const TOO_OLD =
  'This page is older than the band’s book: you can read and play, but not write. Load the page again.';
