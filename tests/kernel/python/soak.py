"""Memory over many re-runs, and the clients that people use."""

import os
import subprocess
import sys
import tempfile
import time
import unittest

import nbformat
import psutil
from kernel_client import KernelCase
from nbclient import NotebookClient


class SoakTests(KernelCase):
    def test_memory_does_not_grow_over_500_runs(self):
        cell = (
            "const soak = Array.from({ length: 1000 }, (_, i) => ({ i, text: `sight ${i}` }));\n"
            "class Kept { data = soak; total() { return this.data.length } }\n"
            "let sum = 0; for (const s of soak) sum += s.i;\n"
            "console.log(sum); new Kept().total()"
        )
        process = psutil.Process(self.manager.provisioner.pid)
        for turn in range(1, 501):
            self.assertEqual(self.execute(cell).result, "1000")
            if turn == 50:
                at_50 = process.memory_info().rss
        # The requirement: no more than 1.5 times its level at the fiftieth run.
        self.assertLess(process.memory_info().rss, 1.5 * at_50)


class ClientTests(unittest.TestCase):
    def notebook(self, *cells):
        spec = {"name": "cocked-hat", "display_name": "x", "language": "typescript"}
        made = nbformat.v4.new_notebook(metadata={"kernelspec": spec})
        made.cells = [nbformat.v4.new_code_cell(c) for c in cells]
        return made

    def test_nbclient_executes_a_notebook(self):
        made = self.notebook("const a: number = 2", "console.log('x'); a * 3", "display.html('<b>h</b>')")
        NotebookClient(made, timeout=60, kernel_name="cocked-hat").execute()
        nbformat.validate(made)
        outputs = [o for c in made.cells for o in c.outputs]
        self.assertEqual([o.output_type for o in outputs], ["stream", "execute_result", "display_data"])
        self.assertEqual(outputs[1].data["text/plain"], "6")

    def test_nbclient_stops_at_a_type_error(self):
        from nbclient.exceptions import CellExecutionError

        made = self.notebook("const a: number = 'x'", "console.log('not reached')")
        with self.assertRaises(CellExecutionError) as caught:
            NotebookClient(made, timeout=60, kernel_name="cocked-hat").execute()
        self.assertEqual(caught.exception.ename, "TypeCheckError")

    def test_nbconvert_executes_from_the_command_line(self):
        with tempfile.TemporaryDirectory() as folder:
            path = os.path.join(folder, "a.ipynb")
            nbformat.write(self.notebook("6 * 7"), path)
            command = [sys.executable, "-m", "nbconvert", "--to", "markdown", "--execute", "--stdout", path]
            text = subprocess.run(command, capture_output=True, text=True, timeout=120).stdout
            self.assertIn("42", text)


if __name__ == "__main__":
    unittest.main()
