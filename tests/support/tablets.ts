import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';

/** @param more arguments of the browser beyond the usual ones */
export const openBrowser = (executablePath: string, more: readonly string[] = []): Promise<Browser> =>
  chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      ...more,
    ],
  });

export const LANDSCAPE = { width: 1180, height: 820 };
export const PORTRAIT = { width: 820, height: 1180 };
export const PHONE = { width: 390, height: 844 };

export interface Tablet {
  readonly context: BrowserContext;
  readonly page: Page;
  /** What went wrong in the page: uncaught errors and errors on the console. */
  readonly errors: string[];
}

/** A browser context of its own that joins by a link, as somebody with a tablet would. */
export const join = async (
  browser: Browser,
  link: string,
  who: { readonly name: string; readonly instrument: string },
  viewport = LANDSCAPE,
): Promise<Tablet> => {
  const context = await browser.newContext({ viewport });
  const page = await context.newPage();
  page.setDefaultTimeout(20_000);
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(String(error)));
  await page.goto(link);
  await page.getByLabel(/your name/i).fill(who.name);
  await page.getByLabel(/what you play/i).selectOption({ label: who.instrument });
  await page.getByRole('button', { name: 'Sit down' }).click();
  await page.locator('.frame').waitFor();
  return { context, page, errors };
};

/** Opens one of the band's views by the rail. */
export const goTo = async (
  { page }: Tablet,
  view: 'Book' | 'Stand' | 'Podium' | 'Pencil' | 'Shed',
): Promise<void> => {
  await page.getByRole('navigation', { name: 'Views' }).getByText(view, { exact: true }).click();
};
