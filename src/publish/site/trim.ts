import fs from 'node:fs';
import path from 'node:path';

/** Plugins of JupyterLab that no notebook of ours calls: diagrams and Vega plots. */
export const DISABLED = ['@jupyterlab/mermaid-extension', '@jupyterlab/vega5-extension'];

/** Fonts for browsers that cannot run the site anyway; every font is there as woff2 too. */
const OLD_FONT = /\.(?:eot|ttf)$|^fa-[\w-]+\.(?:svg|woff)$/;
const CHUNK = /^\d+\.[0-9a-f]+\.js$/;
const LARGE = 60_000;
/** Words of the disabled plugins' own libraries. */
const UNUSED = /cytoscape|sequenceDiagram|org\.eclipse\.elk|\bmermaid\b|\bvega\b/;

/** Takes out of a built site what its notebooks never load. @returns the bytes saved */
export function trimSite(site: string): number {
  let saved = 0;
  const build = path.join(site, 'build');
  for (const name of fs.readdirSync(build)) {
    const file = path.join(build, name);
    const { size } = fs.statSync(file);
    const unused = CHUNK.test(name) && size > LARGE && UNUSED.test(fs.readFileSync(file, 'utf8'));
    if (!unused && !OLD_FONT.test(name)) continue;
    saved += size;
    fs.rmSync(file);
  }
  for (const name of ['rspack.config.js', 'rspack.config.analyze.js', 'rspack.config.watch.js'])
    fs.rmSync(path.join(site, name), { force: true });
  return saved;
}
