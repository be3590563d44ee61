/** The kernel's messages, interrupts, outputs and cells, seen from a Jupyter client (PyPI jupyter_client 8.10). */
import { expect, test } from 'vitest';
import { runPythonTests } from './support/python-tests.js';

/** Tests in each file; a smaller count would mean that some were passed over. */
const FILES = {
  messages: 20,
  interrupts: 20,
  cells: 18,
  streams: 7,
  soak: 4,
  debugging: 13,
} as const;

test.each(Object.entries(FILES))(
  'all tests of %s.py pass',
  async (file, count) => {
    const { tests, text } = await runPythonTests(`${file}.py`);
    expect(
      tests.filter((t) => t.status !== 'ok').map((t) => t.name),
      text,
    ).toEqual([]);
    expect(tests).toHaveLength(count);
  },
  400_000,
);
