import { createContext, useContext } from 'react';
import type { NoteNames } from '../../common/theory/note-name.ts';

/** How this tablet calls the notes: for all that is drawn, never for what is typed. */
export const NoteNamesContext = createContext<NoteNames>('english');

export const useNoteNames = (): NoteNames => useContext(NoteNamesContext);
