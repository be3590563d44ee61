import fs from 'node:fs';
import path from 'node:path';

const escape = (json: string) => json.replaceAll('<', '\\u003c');

export interface Exhibit {
  readonly mime: string;
  readonly data: unknown;
}

/** A plain page with these views in it, everything in one file. */
export async function galleryPage(
  folder: string,
  exhibits: readonly Exhibit[],
  { theme = 'light', width = 0, name = 'gallery' } = {},
): Promise<string> {
  const script = path.join(folder, 'page.js');
  if (!fs.existsSync(script)) {
    const build = (await import(
      path.resolve(import.meta.dirname, '..', '..', 'src', 'lab', 'build.mjs')
    )) as { buildPage(options: { outfile: string }): Promise<void> };
    await build.buildPage({ outfile: script });
  }
  const views = exhibits.map(
    ({ mime, data }) =>
      `<script type="application/json" data-cocked-hat="${mime}">${escape(JSON.stringify(data))}</script>`,
  );
  const background = theme === 'light' ? '#fff' : '#000';
  const file = path.join(folder, `${name}-${theme}.html`);
  fs.writeFileSync(
    file,
    `<!doctype html><html lang="en" data-ch-theme="${theme}"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>Views</title><style>body{margin:8px;background:${background}${width ? `;width:${width}px` : ''}}</style>
<body>${views.join('\n')}<script src="page.js"></script></body></html>`,
  );
  return `file://${file}`;
}
