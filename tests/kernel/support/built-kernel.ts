/** The kernel built for tests, apart from dist/, and the environment in which Jupyter finds it. */
import path from 'node:path';
import { buildKernel } from '../../../src/kernel/build.mjs';
import { writeKernelspec } from '../../../src/kernel/kernelspec.mjs';
import { ROOT } from '../../../src/cli/bootstrap/paths.mjs';

const FOLDER = path.join(ROOT, '.cache', 'test-kernel', String(process.pid));

export interface BuiltKernel {
  readonly dist: string;
  /** Variables with which Jupyter's programs find this kernel before any other. */
  readonly env: NodeJS.ProcessEnv;
}

let built: Promise<BuiltKernel> | null = null;

export function builtKernel(): Promise<BuiltKernel> {
  return (built ??= build());
}

async function build(): Promise<BuiltKernel> {
  await buildKernel({ root: ROOT, dist: FOLDER, minify: false });
  const share = path.join(FOLDER, 'share');
  writeKernelspec(path.join(share, 'kernels', 'cocked-hat'), { root: ROOT, dist: FOLDER });
  return {
    dist: FOLDER,
    env: { ...process.env, JUPYTER_PATH: share, JUPYTER_PREFER_ENV_PATH: '0' },
  };
}
