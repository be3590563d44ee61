/** Opens an address in the user's browser. */
import { spawn } from 'node:child_process';

/** True if somebody can see a browser window from here. */
export function hasDisplay({ platform, env } = process) {
  if (platform === 'win32') return true;
  if (platform === 'darwin') return !env.SSH_CONNECTION;
  return Boolean(env.DISPLAY || env.WAYLAND_DISPLAY);
}

const OPENERS = {
  win32: ['rundll32', 'url.dll,FileProtocolHandler'],
  darwin: ['open'],
};

/** Resolves to false if no browser could be opened. */
export function openBrowser(url) {
  const [command, ...args] = OPENERS[process.platform] ?? ['xdg-open'];
  return new Promise((resolve) => {
    const child = spawn(command, [...args, url], { stdio: 'ignore', detached: true });
    child.once('error', () => resolve(false));
    child.once('exit', (code) => resolve(code === 0));
    child.unref();
    setTimeout(() => resolve(true), 3000).unref();
  });
}
