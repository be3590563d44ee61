/** Builds the deck sheet: one HTML file for a phone. */
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { deckHtml } from './page-html.mjs';

const ROOT = fileURLToPath(new URL('../../../', import.meta.url));

/**
 * @param {{ root?: string, dist?: string, outfile?: string }} context `outfile` is dist/deck/deck-sheet.html unless given
 * @returns {Promise<{ outfile: string, bytes: number }>}
 */
export async function buildDeck({
  dist = path.join(ROOT, 'dist'),
  outfile = path.join(dist, 'deck', 'deck-sheet.html'),
} = {}) {
  const esbuild = await import('esbuild');
  const { outputFiles } = await esbuild.build({
    absWorkingDir: ROOT,
    entryPoints: ['src/publish/deck/main.ts'],
    bundle: true,
    minify: true,
    write: false,
    format: 'iife',
    target: 'es2022',
    platform: 'browser',
    legalComments: 'none',
    logLevel: 'warning',
  });
  const styles = ['src/lab/render/css/roles.css', 'src/publish/deck/deck.css'];
  const css = styles.map((file) => fs.readFileSync(path.join(ROOT, file), 'utf8')).join('\n');
  const { code } = await esbuild.transform(css, { loader: 'css', minify: true, target: 'es2022' });
  const { version } = JSON.parse(fs.readFileSync(path.join(ROOT, 'package.json'), 'utf8'));
  const html = deckHtml({ script: outputFiles[0].text, css: code, version });
  fs.mkdirSync(path.dirname(outfile), { recursive: true });
  fs.writeFileSync(outfile, html);
  return { outfile, bytes: Buffer.byteLength(html) };
}
