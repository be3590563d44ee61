/** What `npm start` and `cocked-hat open` serve: this checkout, or a folder of the user's own. */
import crypto from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { ROOT } from './paths.mjs';

const NOTEBOOKS = path.join(ROOT, 'notebooks');

function isInside(folder, file) {
  const way = path.relative(folder, file);
  return way !== '..' && !way.startsWith(`..${path.sep}`) && !path.isAbsolute(way);
}

/** JupyterLab keeps the open tabs of a workspace: each folder has its own, so that none looks for another's files. */
function workspaceOf(folder) {
  const hash = crypto.createHash('sha256').update(folder).digest('hex').slice(0, 8);
  return `folder-${hash}`;
}

/** The page of a file or folder below the served folder. */
function pageOf(root, file) {
  const parts = path.relative(root, file).split(path.sep).map(encodeURIComponent);
  const tree = parts[0] === '' ? '' : `/tree/${parts.join('/')}`;
  return root === ROOT ? `/lab${tree}` : `/lab/workspaces/${workspaceOf(root)}${tree}`;
}

/** A new folder is not made by a slip of the pen: its owner makes it. */
function howToBegin(text, file) {
  const word = /[\s'"\\]/.test(text) ? `"${text}"` : text;
  return path.extname(file) === ''
    ? `To begin a new folder, make it first: mkdir ${word}`
    : 'To begin a new notebook, open its folder and choose File, New, Notebook.';
}

/**
 * @param {string | undefined} text a notebook or folder, relative to the working folder; nothing: the notebooks of this checkout
 * @returns {{ root: string, first: string, page: string }} the folder to serve, the folder to show first, the page's address
 *   below the server's. What lies in this checkout is served with the whole of it, anything else with its own folder alone
 * @throws {RangeError} when there is nothing of that name
 */
export function whatToOpen(text) {
  if (text === undefined) return { root: ROOT, first: NOTEBOOKS, page: '/lab' };
  const file = path.resolve(text);
  if (!fs.existsSync(file))
    throw new RangeError(
      `There is no file or folder ${text} (looked for ${file}).\n${howToBegin(text, file)}`,
    );
  const folder = fs.statSync(file).isDirectory() ? file : path.dirname(file);
  const root = isInside(ROOT, file) ? ROOT : folder;
  return { root, first: folder, page: pageOf(root, file) };
}
