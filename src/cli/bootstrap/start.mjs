/** `npm start`: from a fresh clone, or from yesterday's, to JupyterLab on the notebooks. */
import './require-node.mjs';
import fs from 'node:fs';
import { parseArgs } from 'node:util';
import { reportFailure, SetupFailure } from './failure.mjs';
import { choosePort, startLab } from './lab-server.mjs';
import { hasDisplay, openBrowser } from './open-browser.mjs';
import { ENV, ROOT } from './paths.mjs';
import { endChildren } from './process-tree.mjs';
import { say } from './progress.mjs';
import { setUp } from './setup.mjs';
import { onStopRequest } from './stop-request.mjs';
import { whatToOpen } from './what-to-open.mjs';

const HELP = `Opens JupyterLab on the notebooks; installs and builds first whatever is missing.

  npm start                                       open the notebooks in a browser
  npm start -- notebooks/02-one-sight.ipynb       open this notebook
  npm start -- ~/passage                          open a folder of your own, with this kernel and these views
  npm start -- --no-browser                       print the address only
  npm start -- --port 9000                        serve there instead of on the first free port from 8888 on

Everything is installed inside this folder (node_modules, .env). Ctrl-C stops it.`;

function wrongUsage(message) {
  console.error(
    `${message}\nnpm start -- --help, or cocked-hat open --help, shows the right form.`,
  );
  process.exit(2);
}

function readPort(text) {
  if (text === undefined) return undefined;
  const port = Number(text);
  if (!/^\d+$/.test(text) || port < 1 || port > 65535)
    wrongUsage(`--port ${text}: a port is a whole number from 1 to 65535, as in --port 9000`);
  return port;
}

function readPlace(text) {
  try {
    return whatToOpen(text);
  } catch (error) {
    return wrongUsage(error.message);
  }
}

function readArguments() {
  try {
    const { values, positionals } = parseArgs({
      allowPositionals: true,
      options: {
        port: { type: 'string' },
        'no-browser': { type: 'boolean', default: false },
        help: { type: 'boolean', short: 'h', default: false },
      },
    });
    if (positionals.length > 1)
      wrongUsage(`One notebook or folder at a time, not ${positionals.length}.`);
    return {
      help: values.help,
      port: readPort(values.port),
      browser: !values['no-browser'],
      place: readPlace(positionals[0]),
    };
  } catch (error) {
    return wrongUsage(error.message);
  }
}

function reportSetUp({ installed, built, registered }) {
  if (!registered.kernel)
    throw new SetupFailure('the kernel is not in this checkout (src/kernel)', {
      remedy: 'get a complete checkout: git status names missing files',
    });
  if (!installed && built.length === 0) say('Everything is in place.');
}

async function showAddress(url, browser) {
  const opened = browser && hasDisplay() && (await openBrowser(url));
  say(
    `\n${opened ? 'JupyterLab is open in your browser' : 'JupyterLab is ready; open this address in a browser'}:`,
  );
  say(`  ${url}\nCtrl-C stops it.`);
}

/** Until JupyterLab is up, stopping means ending whatever is at work. */
let ready = false;

function giveUp(reason) {
  say(`\nStopped (${reason}); the next start goes on from here.`);
  endChildren();
  process.exit(130);
}

async function main() {
  const { help, port, browser, place } = readArguments();
  if (help) return say(HELP);
  const stop = onStopRequest();
  stop.then((reason) => !ready && giveUp(reason));
  if (port !== undefined) await choosePort(port);
  if (!fs.existsSync(ENV))
    say(`First start in ${ROOT}: about a minute, and some 900 MB inside this folder.`);
  reportSetUp(await setUp());
  const lab = await startLab({ port, place });
  ready = true;
  await showAddress(lab.url, browser);
  const reason = await Promise.race([stop, lab.ended.then(() => 'ended')]);
  if (reason === 'ended') return say('JupyterLab was shut down.');
  say(`\nStopping JupyterLab (${reason}) …`);
  await lab.stop();
  say('Stopped.');
}

try {
  await main();
  process.exit();
} catch (error) {
  reportFailure(error);
  endChildren();
  process.exit();
}
