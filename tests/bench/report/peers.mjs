import {
  BENCH_REQUIREMENTS,
  ensurePythonEnv,
  RUNTIME_REQUIREMENTS,
  TEST_REQUIREMENTS,
} from '../../../src/cli/bootstrap/python.mjs';

/** Installs what the benchmarks are measured beside and the tests do without: astropy, deno, a kernel of JupyterLite. */
export const ensureBenchPeers = () =>
  ensurePythonEnv([RUNTIME_REQUIREMENTS, TEST_REQUIREMENTS, BENCH_REQUIREMENTS]);
