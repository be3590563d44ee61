import fs from 'node:fs';
import path from 'node:path';
import type { MimeBundle } from '../../src/views/mime.js';
import { sharedFolder } from './shared.js';

/** One bundle of each view, as a notebook file holds it; made once a run. */
export async function allViews(): Promise<Record<string, MimeBundle>> {
  const folder = await sharedFolder('views', async (home) => {
    const { makeViews } = await import('./make-views.js');
    fs.writeFileSync(path.join(home, 'views.json'), JSON.stringify(makeViews()));
  });
  return JSON.parse(fs.readFileSync(path.join(folder, 'views.json'), 'utf8')) as Record<
    string,
    MimeBundle
  >;
}
