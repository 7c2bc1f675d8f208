import type { PadPage } from './podium-key.ts';

/** The screens of keys in their order. */
export const PAD_PAGES: readonly { readonly page: PadPage; readonly name: string }[] = [
  { page: 'form', name: 'Form' },
  { page: 'feel', name: 'Feel' },
  { page: 'solos', name: 'Solos' },
  { page: 'spot', name: 'Spot' },
];

/** The screen so many further on; the same where there is none. */
export const pageBeside = (page: PadPage, by: 1 | -1): PadPage =>
  PAD_PAGES[PAD_PAGES.findIndex((one) => one.page === page) + by]?.page ?? page;
