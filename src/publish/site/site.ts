import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { cutEphemeris } from '../../core/sky/index.js';
import { EphemerisFile } from '../../ephemeris-file.js';
import { packageRoot } from '../../kernel/modules/package-root.js';
import type { EditionFacts } from '../client/page-data.js';
import { builtFile } from '../page/page-parts.js';
import { PublishError } from '../publish-error.js';
import type { EditionFile } from '../write/atomic.js';
import { landingPage } from './landing-page.js';
import { buildLite, JUPYTERLITE } from './python.js';
import { DISABLED, trimSite } from './trim.js';

/** One notebook of a site: its versioned file name and its text. */
export interface SiteNotebook {
  readonly facts: EditionFacts;
  readonly file: string;
  readonly text: string;
}

const EXTENSIONS = { 'cocked-hat': 'labextension', 'cocked-hat-lite': 'lite-kernel' } as const;

/** A site to be made: its name is that of the edition. */
export interface SiteEdition {
  readonly name: string;
  readonly title: string;
  readonly notebooks: readonly SiteNotebook[];
}

/**
 * JupyterLite sites of notebooks with our kernel and views, as files to put on any web server, at any path. They are built in
 * one go, since they differ in nothing but their notebooks, the listing of these and the first page.
 * @param years of the ephemeris, first and last @returns the files by the edition's name
 * @throws PublishError without jupyterlite-core or an unbuilt extension
 */
export async function siteFiles(
  editions: readonly SiteEdition[],
  years: readonly [number, number],
): Promise<ReadonlyMap<string, EditionFile[]>> {
  const stage = fs.mkdtempSync(path.join(os.tmpdir(), 'cocked-hat-site-'));
  try {
    const folder = (...name: string[]) => {
      const place = path.join(stage, ...name);
      fs.mkdirSync(place);
      return place;
    };
    const [lite, contents, extensions] = [folder('lite'), folder('contents'), folder('extensions')];
    const site = path.join(stage, 'site');
    for (const { name, notebooks } of editions) {
      const own = folder('contents', name);
      for (const { file, text } of notebooks) fs.writeFileSync(path.join(own, file), text);
    }
    placeExtensions(extensions, years);
    fs.writeFileSync(path.join(lite, 'jupyter-lite.json'), JSON.stringify(SETTINGS));
    await buildLite({ lite, contents, extensions, site }, stage);
    trimSite(site);
    const all = allFiles(site);
    return new Map(editions.map((edition) => [edition.name, filesOfEdition(all, edition)]));
  } finally {
    fs.rmSync(stage, { recursive: true, force: true });
  }
}

/** Where a built site keeps notebooks, and the listings of their folders. */
const NOTEBOOKS = 'files/';
const LISTINGS = 'api/contents/';

/** The files of one edition's site, of those built for all: its folder of notebooks becomes the only one. */
function filesOfEdition(
  all: readonly EditionFile[],
  { name, title, notebooks }: SiteEdition,
): EditionFile[] {
  const alike = all.filter(
    (f) => !f.name.startsWith(NOTEBOOKS) && !f.name.startsWith(LISTINGS) && f.name !== 'index.html',
  );
  const own = all
    .filter((f) => f.name.startsWith(`${NOTEBOOKS}${name}/`))
    .map((f) => ({ ...f, name: f.name.replace(`${name}/`, '') }));
  const listing = all.find((f) => f.name === `${LISTINGS}${name}/all.json`);
  if (!listing || own.length !== notebooks.length)
    throw new PublishError(
      `The site came out with ${own.length} of ${notebooks.length} notebooks`,
      `check that ${JUPYTERLITE} is installed`,
    );
  return [
    ...alike,
    ...own,
    { name: `${LISTINGS}all.json`, bytes: Buffer.from(asTopFolder(listing.bytes, name)) },
    {
      name: 'index.html',
      bytes: Buffer.from(landingPage(title, notebooks, builtFile('page.css'))),
    },
  ];
}

/** The listing of a folder as that of the top: paths lose the folder's name. */
function asTopFolder(listing: Uint8Array, folder: string): string {
  const data = JSON.parse(Buffer.from(listing).toString('utf8')) as {
    content: readonly { readonly path: string }[];
  };
  const content = data.content.map((entry) => ({
    ...entry,
    path: entry.path.replace(`${folder}/`, ''),
  }));
  return JSON.stringify({ ...data, name: '', path: '', content });
}

const SETTINGS = {
  'jupyter-lite-schema-version': 0,
  'jupyter-config-data': {
    appName: 'Cocked Hat',
    defaultKernelName: 'cocked-hat',
    disabledExtensions: DISABLED,
    enableMemoryStorage: false,
  },
};

/** The views and the kernel for the page, the kernel with the years of the ephemeris that are wanted. */
function placeExtensions(target: string, [from, to]: readonly [number, number]): void {
  const root = packageRoot();
  for (const [name, built] of Object.entries(EXTENSIONS)) {
    const source = path.join(root, 'dist', built);
    if (!fs.existsSync(path.join(source, 'package.json')))
      throw new PublishError(
        `${source} is missing: the extension for sites has not been built`,
        'npm run build',
      );
    fs.cpSync(source, path.join(target, name), { recursive: true });
  }
  const statics = path.join(target, 'cocked-hat-lite', 'static');
  const whole = fs.readdirSync(statics).find((f) => /^ephemeris.*\.bin$/.test(f));
  if (!whole) throw new PublishError('The kernel for sites carries no ephemeris', 'npm run build');
  const file = pathToFileURL(path.join(root, 'data', 'ephemeris-1950-2053.bin'));
  fs.writeFileSync(path.join(statics, whole), cutEphemeris(new EphemerisFile(file), from, to));
}

function allFiles(site: string): EditionFile[] {
  return fs
    .readdirSync(site, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => {
      const place = path.join(entry.parentPath, entry.name);
      const name = path.relative(site, place).split(path.sep).join('/');
      return { name, bytes: fs.readFileSync(place) };
    });
}
