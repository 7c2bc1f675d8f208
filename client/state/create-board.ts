import { readBook, setMember } from '../../common/document/book-document.ts';
import { leadingOf, readLeading } from '../../common/document/leading-document.ts';
import { isNewerThanThisPage } from '../../common/document/schema-version.ts';
import { readStage } from '../../common/document/stage-document.ts';
import { mayWrite } from '../../common/protocol/roles.ts';
import { type Performance, perform } from '../../common/stage/perform.ts';
import type { Board, StageState } from './board.ts';
import type { BoardParts } from './board-parts.ts';
import type { ChartShelf, OnShelf } from './chart-shelf.ts';
import { derive } from './derive.ts';
import { documentView } from './document-view.ts';
import type { LinkState } from './link-state.ts';
import { loadLater } from './load-later.ts';
import { type Observable, settable } from './observable.ts';
import { type OpenDocument, openDocument } from './open-document.ts';
import type { Person } from './person.ts';
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
  const held = new Map<string, OnShelf>();
  let closed = false;
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
  const editor = () => ({ member, name: parts.me.get().name, colour: colour() });
  const introduce = () => {
    const { name, part } = parts.me.get();
    toldErrorMs = clock.clock.get().errorMs;
    const me = { member, name, part, role, colour: colour() };
    stageFile.room.awareness.setLocalState({ ...me, errorMs: toldErrorMs, point });
    for (const { chart } of held.values()) chart.introduce(editor());
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
  const files = (): OpenDocument[] => [bookFile, stageFile, ...[...held.values()].map(({ file }) => file)];
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

  const shelf: ChartShelf = {
    held,
    openFile: (id) => {
      const name = `chart.${id}`;
      const file = openDocument(parts, name, !writes(name));
      return { file, watch: watchClosed(file) };
    },
    editor,
    mayEdit: (id) => writes(`chart.${id}`) && leading.get().locked !== true,
    bookDoc: writes('book') ? bookFile.doc : null,
    timers,
  };
  let performance: Performance | null = null;
  const unsent = parts.unsent.get().filter((name) => name.startsWith('chart.') && writes(name));
  if (unsent.length > 0) {
    // The code of charts comes when one is read; what was typed waits for it on this tablet.
    void loadLater(() => import('./open-chart.ts'), live.state).then(({ holdChart }) => {
      if (!closed) for (const name of unsent) holdChart(shelf, name.slice('chart.'.length));
    });
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
    shelf,
    call: live.call,
    takeBack: live.takeBack,
    lead: live.lead,
    point: (at) => {
      point = at;
      introduce();
    },
    close: () => {
      closed = true;
      for (const end of ends) end();
      for (const { chart, watches } of held.values()) {
        for (const end of watches) end();
        chart.close();
      }
      bookFile.close();
      stageFile.close();
      live.close();
    },
  };
};

const TOO_OLD =
  'This page is older than the band’s book: you can read and play, but not write. Load the page again.';
