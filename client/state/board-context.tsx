import { createContext, useContext } from 'react';
import type { Board } from './board.ts';

/** The board of the band that is open; null outside a band's pages. */
export const BoardContext = createContext<Board | null>(null);

/** The open band's board. Only for what is drawn inside a band's pages, where the router has put one. */
export const useBoard = (): Board => {
  const board = useContext(BoardContext);
  if (!board) throw new Error('no board here: this view must be drawn inside BoardContext');
  return board;
};
