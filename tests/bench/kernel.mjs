/** Kernels side by side in one run: ours, ipykernel, plain tslab and deno where they are installed. */
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { buildKernel } from '../../src/kernel/build.mjs';
import { writeKernelspec } from '../../src/kernel/kernelspec.mjs';
import { envBin, ROOT } from '../../src/cli/bootstrap/paths.mjs';

const folder = path.join(ROOT, '.cache', 'bench-kernel');
const kernels = path.join(folder, 'share', 'kernels');
await buildKernel({ root: ROOT, dist: folder });
writeKernelspec(path.join(kernels, 'cocked-hat'), { root: ROOT, dist: folder });
const spec = (name, argv, language) => {
  fs.mkdirSync(path.join(kernels, name), { recursive: true });
  const text = JSON.stringify({ argv, display_name: name, language });
  fs.writeFileSync(path.join(kernels, name, 'kernel.json'), text);
};
const tslab = path.join(ROOT, 'node_modules', 'tslab', 'bin', 'tslab');
if (fs.existsSync(tslab))
  spec(
    'plain-tslab',
    [process.execPath, tslab, 'kernel', '--config-path', '{connection_file}'],
    'typescript',
  );
const deno = envBin('deno');
if (fs.existsSync(deno))
  spec('plain-deno', [deno, 'jupyter', '--kernel', '--conn', '{connection_file}'], 'typescript');
const least = path.join(import.meta.dirname, 'least-kernel.mjs');
spec('least-node', [process.execPath, least, '{connection_file}'], 'javascript');
const words = [path.join(ROOT, 'tests/bench/kernel_speed.py'), ...process.argv.slice(2)];
const { status } = spawnSync(envBin('python'), words, {
  stdio: 'inherit',
  env: { ...process.env, JUPYTER_PATH: path.join(folder, 'share') },
});
process.exitCode = status ?? 1;
