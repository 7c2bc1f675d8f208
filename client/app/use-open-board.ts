import { createContext, useContext } from 'react';
import type { OpenBoard } from '../state/create-board.ts';

/** The open board with what only the frame and the book ask of it. */
export const OpenBoardContext = createContext<OpenBoard | null>(null);

export const useOpenBoard = (): OpenBoard => {
  const board = useContext(OpenBoardContext);
  if (!board) throw new Error('no open board here: this page must be drawn inside a band’s frame');
  return board;
};
