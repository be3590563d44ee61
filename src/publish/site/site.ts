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
import { buildLite } from './python.js';
import { DISABLED, trimSite } from './trim.js';

/** One notebook of a site: its versioned file name and its text. */
export interface SiteNotebook {
  readonly facts: EditionFacts;
  readonly file: string;
  readonly text: string;
}

const EXTENSIONS = { 'cocked-hat': 'labextension', 'cocked-hat-lite': 'lite-kernel' } as const;

/**
 * A JupyterLite site of notebooks with our kernel and views, as files to put on any web server, at any path.
 * @param years of the ephemeris, first and last @throws PublishError without jupyterlite-core or an unbuilt extension
 */
export async function siteFiles(
  title: string,
  notebooks: readonly SiteNotebook[],
  years: readonly [number, number],
): Promise<EditionFile[]> {
  const stage = fs.mkdtempSync(path.join(os.tmpdir(), 'cocked-hat-site-'));
  try {
    const folder = (name: string) => {
      const place = path.join(stage, name);
      fs.mkdirSync(place);
      return place;
    };
    const [lite, contents, extensions] = ['lite', 'contents', 'extensions'].map(folder) as [
      string,
      string,
      string,
    ];
    const site = path.join(stage, 'site');
    for (const { file, text } of notebooks) fs.writeFileSync(path.join(contents, file), text);
    placeExtensions(extensions, years);
    fs.writeFileSync(path.join(lite, 'jupyter-lite.json'), JSON.stringify(SETTINGS));
    await buildLite(
      [
        '--no-sourcemaps',
        '--no-unused-shared-packages',
        '--no-libarchive',
        '--ignore-sys-prefix',
        '--apps=notebooks',
        `--lite-dir=${lite}`,
        `--contents=${contents}`,
        `--output-dir=${site}`,
        `--FederatedExtensionAddon.extra_labextensions_path=${extensions}`,
      ],
      stage,
    );
    trimSite(site);
    fs.writeFileSync(
      path.join(site, 'index.html'),
      landingPage(title, notebooks, builtFile('page.css')),
    );
    return allFiles(site);
  } finally {
    fs.rmSync(stage, { recursive: true, force: true });
  }
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
