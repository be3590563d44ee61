/** Against PyPI jupyter_kernel_test 0.7.0, the Jupyter project's own test of kernels. */
import { expect, test } from 'vitest';
import { runPythonTests } from './support/python-tests.js';

test('the kernel passes all of jupyter_kernel_test but the pager', async () => {
  const { tests, text } = await runPythonTests('conformance.py');
  const others = tests.filter((t) => t.status !== 'ok').map((t) => `${t.name} ${t.status}`);
  expect(others, text).toEqual(['test_pager skipped']);
  expect(tests).toHaveLength(13);
}, 400_000);
