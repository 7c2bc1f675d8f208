import { lazy } from 'react';
import { Book } from '../book/book.tsx';

const AddChart = lazy(() => import('../book/add-chart.tsx').then((module) => ({ default: module.AddChart })));
const Invitation = lazy(() => import('./invitation.tsx').then((module) => ({ default: module.Invitation })));

/** The band's book, and what is gone to from it. */
export const BookPages = ({ page }: { readonly page: 'book' | 'add' | 'invite' }) => {
  switch (page) {
    case 'book':
      return <Book />;
    case 'add':
      return <AddChart />;
    case 'invite':
      return <Invitation />;
  }
};
