/** The browser for tests that look at pages: Chromium as the system packages it. */
import fs from 'node:fs';
import path from 'node:path';
import { SetupFailure } from './failure.mjs';
import { step } from './progress.mjs';
import { answers, runProgram } from './run-program.mjs';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'];
const PLACES = [
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files\\Chromium\\Application\\chrome.exe',
];
const windows = process.platform === 'win32';

/** Its path, from the variable CHROMIUM, the search path or the usual places; undefined if there is none. */
export function findChromium() {
  const folders = (process.env.PATH ?? '').split(path.delimiter).filter(Boolean);
  const onPath = NAMES.flatMap((name) =>
    folders.map((folder) => path.join(folder, windows ? `${name}.exe` : name)),
  );
  const candidates = [process.env.CHROMIUM ?? '', ...onPath, ...PLACES];
  return candidates.find((file) => file !== '' && fs.existsSync(file));
}

async function apt(args, what) {
  await runProgram('apt-get', args, {
    log: 'chromium',
    what,
    remedy: 'install Chromium by hand and give the same command again',
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  });
}

/** Installs Debian's Chromium where we may; otherwise says what to install. */
export async function ensureChromium() {
  const found = findChromium();
  if (found) return found;
  if (process.getuid?.() !== 0 || !answers('apt-get'))
    throw new SetupFailure('the browser tests need Chromium and there is none', {
      remedy:
        'install it (Debian, Ubuntu: sudo apt-get install chromium) or put the path of a Chromium or Chrome into the variable CHROMIUM',
    });
  await step('Chromium for the browser tests (apt-get)', async () => {
    await apt(['update', '-q'], 'reading the list of system packages');
    const packages = ['chromium', 'fonts-dejavu-core'];
    await apt(
      ['install', '-q', '-y', '--no-install-recommends', ...packages],
      'installing Chromium',
    );
  });
  const installed = findChromium();
  if (!installed) throw new SetupFailure('Chromium was installed but is not to be found');
  return installed;
}
