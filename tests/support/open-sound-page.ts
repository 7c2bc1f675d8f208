import type { Browser, Page } from 'playwright-core';
import { build } from 'vite';
import type { SoundPage } from './sound-page.ts';

declare global {
  interface Window {
    soundPage: SoundPage;
  }
}

/** The page's script in one piece. */
const bundle = async (): Promise<string> => {
  const built = await build({
    configFile: false,
    logLevel: 'error',
    build: {
      write: false,
      minify: false,
      lib: { entry: 'tests/support/sound-page.ts', formats: ['iife'], name: 'soundPageScript' },
    },
  });
  const [output] = Array.isArray(built) ? built : [built];
  if (!output || !('output' in output)) throw new Error('the page of the sound was not built');
  return output.output[0].code;
};

/** An empty page that holds `window.soundPage`. */
export const openSoundPage = async (browser: Browser): Promise<Page> => {
  const page = await browser.newPage();
  await page.addScriptTag({ content: await bundle() });
  return page;
};
