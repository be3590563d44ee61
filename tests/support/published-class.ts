import fs from 'node:fs';
import path from 'node:path';
import { publish } from '../../src/publish/index.js';
import { ROOT } from './root.js';
import { sharedFolder } from './shared.js';

export const EXERCISES = path.join(ROOT, 'notebooks', 'exercises');

/** The folder of all exercises, published as pages and as a site, once a run: `student/` and `teacher/`, each with `site/`. */
export async function publishedClass(): Promise<string> {
  const folder = await sharedFolder('published', async (home) => {
    if (!fs.existsSync(path.join(ROOT, 'dist', 'lite-kernel'))) {
      const { buildLiteKernel } = (await import(
        path.join(ROOT, 'src', 'lab', 'lite-kernel', 'build.mjs')
      )) as { buildLiteKernel(): Promise<unknown> };
      await buildLiteKernel();
    }
    const files = fs.readdirSync(EXERCISES).filter((f) => f.endsWith('.ipynb'));
    await publish(
      files.map((f) => path.join(EXERCISES, f)),
      { out: path.join(home, 'class'), forms: ['page', 'site'], title: 'Winter class' },
    );
  });
  return path.join(folder, 'class');
}
