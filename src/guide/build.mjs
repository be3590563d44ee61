/** Makes dist/guide: the pages of this folder as HTML, and the reference of the library from its docstrings. */
import fs from 'node:fs';
import path from 'node:path';
import { contents, GUIDE } from './contents.mjs';
import { pageHtml } from './page.mjs';

/** The pages, in a moment. A reference of the library that is there stays. */
export async function buildGuide({ root, dist }) {
  const out = path.join(dist, 'guide');
  fs.mkdirSync(out, { recursive: true });
  for (const file of fs.readdirSync(out))
    if (file.endsWith('.html')) fs.rmSync(path.join(out, file));
  const groups = contents();
  const { version } = JSON.parse(fs.readFileSync(path.join(root, 'package.json'), 'utf8'));
  const about = { version, api: fs.existsSync(path.join(out, 'api', 'index.html')) };
  for (const page of groups.flatMap(({ pages }) => pages))
    fs.writeFileSync(path.join(out, `${page.name}.html`), pageHtml(page, groups, about));
  const css = [path.join(root, 'src/publish/css/colours.css'), path.join(GUIDE, 'style.css')];
  const style = css.map((file) => fs.readFileSync(file, 'utf8')).join('');
  fs.writeFileSync(path.join(out, 'style.css'), style);
}
