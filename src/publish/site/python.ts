import { execFile, execFileSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { packageRoot } from '../../kernel/modules/package-root.js';
import { PublishError } from '../publish-error.js';

/** The builder of sites that this version is tried with. */
export const JUPYTERLITE = 'jupyterlite-core==0.8.6';

/** A Python that has jupyterlite-core: the one named, the checkout's own, or the first on the path. @throws PublishError */
export function sitePython(): string {
  const own = path.join(packageRoot(), '.env', 'bin', 'python');
  const named = process.env['COCKED_HAT_PYTHON'];
  const candidates = [
    ...(named ? [named] : []),
    ...(fs.existsSync(own) ? [own] : []),
    'python3',
    'python',
  ];
  const found = candidates.find((python) => {
    try {
      execFileSync(python, ['-c', 'import jupyterlite_core'], { stdio: 'ignore' });
      return true;
    } catch {
      return false;
    }
  });
  if (found) return found;
  throw new PublishError(
    'A site is built by jupyterlite-core, and no Python here has it',
    `pip install ${JUPYTERLITE}, and name that Python in COCKED_HAT_PYTHON if it is not the first on the path`,
  );
}

/** Folders of a build: settings, notebooks and extensions that go in, and the site that comes out. */
export interface LiteFolders {
  readonly lite: string;
  readonly contents: string;
  readonly extensions: string;
  readonly site: string;
}

/** Runs `jupyter lite build`. @throws PublishError with the end of what it printed */
export function buildLite(folders: LiteFolders, cwd: string): Promise<void> {
  const words = [
    '--no-sourcemaps',
    '--no-unused-shared-packages',
    '--no-libarchive',
    '--ignore-sys-prefix',
    '--apps=notebooks',
    `--lite-dir=${folders.lite}`,
    `--contents=${folders.contents}`,
    `--output-dir=${folders.site}`,
    `--FederatedExtensionAddon.extra_labextensions_path=${folders.extensions}`,
  ];
  return new Promise((resolve, reject) => {
    const all = ['-m', 'jupyterlite_core', 'build', ...words];
    execFile(sitePython(), all, { cwd, maxBuffer: 1 << 26 }, (error, stdout, stderr) => {
      if (!error) return resolve();
      const end = `${stdout}\n${stderr}`.trim().split('\n').slice(-5).join('\n');
      reject(
        new PublishError(
          `The site could not be built:\n${end}`,
          `check that ${JUPYTERLITE} is installed`,
        ),
      );
    });
  });
}
