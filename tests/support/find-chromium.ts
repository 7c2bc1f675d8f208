import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import type {} from 'vitest';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  interface ProvidedContext {
    chromium: string;
  }
}

const PLACES = [
  process.env['TILLCUE_CHROMIUM'] ?? '',
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
];

const found = (): string | undefined => PLACES.find((place) => place !== '' && existsSync(place));

/** Debian's and Ubuntu's own package; only root may install it. */
const installByApt = (): void => {
  const apt = (...args: string[]) =>
    execFileSync('apt-get', args, {
      stdio: ['ignore', 'ignore', 'inherit'],
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    });
  process.stderr.write('No Chromium here: installing it with apt-get …\n');
  apt('update', '-qq');
  apt('install', '-y', '-qq', '--no-install-recommends', 'chromium');
};

/**
 * The path of a Chromium for the browser journeys, installed by apt where there is none and we may.
 * @throws with words on what to install, so that a missing browser fails the run instead of skipping it
 */
export const findChromium = (): string => {
  const here = found();
  if (here) return here;
  if (process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')) installByApt();
  const now = found();
  if (now) return now;
  throw new Error(
    'The browser journeys need Chromium or Chrome. Install it (Debian, Ubuntu: "sudo apt-get install chromium"), ' +
      'or name its program in the environment variable TILLCUE_CHROMIUM.',
  );
};

export const setup = (project: TestProject): void => {
  project.provide('chromium', findChromium());
};
