/** Everything between a fresh clone and a working JupyterLab, each part only if it is not yet done. */
import { alone } from './lock.mjs';
import { build } from './build.mjs';
import { ensureNodePackages } from './node-packages.mjs';
import { ensurePythonEnv, RUNTIME_REQUIREMENTS, TEST_REQUIREMENTS } from './python.mjs';
import { register } from './register.mjs';

async function packagesAndBuild() {
  const installed = await ensureNodePackages();
  return { installed, built: await build() };
}

/**
 * Installs packages, builds and registers.
 * @param {{ forTests?: boolean }} options `forTests` adds what the tests need to .env
 * @returns what was done: `{ installed, built, registered }`
 */
export function setUp({ forTests = false } = {}) {
  return alone(async () => {
    const files = forTests ? [RUNTIME_REQUIREMENTS, TEST_REQUIREMENTS] : [RUNTIME_REQUIREMENTS];
    const steps = await Promise.allSettled([ensurePythonEnv(files), packagesAndBuild()]);
    const failed = steps.find((step) => step.status === 'rejected');
    if (failed) throw failed.reason;
    const [python, node] = steps.map((step) => step.value);
    const installed = python || node.installed;
    return { installed, built: node.built, registered: await register() };
  });
}
