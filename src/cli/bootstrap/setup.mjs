/** Everything between a fresh clone and a working JupyterLab, each part only if it is not yet done. */
import { alone } from './lock.mjs';
import { build } from './build.mjs';
import { ensureNodePackages } from './node-packages.mjs';
import { ensurePythonEnv, RUNTIME_REQUIREMENTS, TEST_REQUIREMENTS } from './python.mjs';
import { register } from './register.mjs';

/**
 * Installs packages, builds and registers.
 * @param {{ forTests?: boolean }} options `forTests` adds what the tests need to .env
 * @returns what was done: `{ installed, built, registered }`
 */
export function setUp({ forTests = false } = {}) {
  return alone(async () => {
    const files = forTests ? [RUNTIME_REQUIREMENTS, TEST_REQUIREMENTS] : [RUNTIME_REQUIREMENTS];
    const python = ensurePythonEnv(files);
    // A failure there is reported when its turn comes, below.
    python.catch(() => {});
    const npm = await ensureNodePackages();
    const built = await build();
    const installed = (await python) || npm;
    return { installed, built, registered: await register() };
  });
}
