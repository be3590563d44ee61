"""Names, results and errors of cells."""

import os
import tempfile
import unittest

from kernel_client import KernelCase


class CellTests(KernelCase):
    cwd = tempfile.mkdtemp()

    def test_functions_see_a_variable_assigned_later(self):
        # Plain tslab 1.0.22 answers 58.5: its functions keep the value they saw first.
        self.execute("let IE = 1.5; function corr(h: number) { return h - IE / 60 }")
        self.assertEqual(self.value("IE = 2; corr(1) * 60"), "58")

    def test_functions_see_a_variable_declared_anew(self):
        self.execute("let dipOf = 1; const twice = () => 2 * dipOf")
        self.assertEqual(self.value("let dipOf = 5; twice()"), "10")

    def test_a_cell_can_be_run_again(self):
        for _ in range(3):
            self.assertEqual(self.value("const sd = 15.9; class Limb { up = 1 }; enum E { A, B }; sd"), "15.9")

    def test_a_type_error_stops_the_cell_and_points_at_it(self):
        out = self.execute("const ok = 1\nconst ho: number = '41°18.6′'\nconsole.log('not reached')")
        self.assertEqual(out.error, "TypeCheckError")
        self.assertIn("string", out.reply["evalue"])
        self.assertIn(":2:7", "".join(out.reply["traceback"]))
        self.assertEqual(out.text(), "")
        self.assertEqual(self.execute("ok").error, "TypeCheckError")

    def test_a_comment_makes_type_errors_warnings(self):
        out = self.execute("// types: warn\nconst hs: number = 'text'; console.log('reached')")
        self.assertEqual(out.status, "ok")
        self.assertEqual(out.text(), "reached\n")
        self.assertIn("TS2322", out.text("stderr"))

    def test_a_comment_switches_the_check_off(self):
        out = self.execute("// @ts-nocheck\nconst hs2: number = 'text'; hs2")
        self.assertEqual((out.status, out.result, out.text("stderr")), ("ok", "'text'", ""))

    def test_a_syntax_error_names_the_place(self):
        out = self.execute("const a = (1 + ;")
        self.assertEqual(out.error, "SyntaxError")
        self.assertIn(":1:16", "".join(out.reply["traceback"]))

    def test_a_traceback_leads_through_the_cells(self):
        self.execute("function deep(x: number): number {\n  if (x > 2) throw new RangeError(`no ${x}`)\n  return deep(x + 1)\n}")
        out = self.execute("\n\ndeep(0)")
        text = "\n".join(out.reply["traceback"])
        self.assertEqual((out.error, out.reply["evalue"]), ("RangeError", "no 3"))
        self.assertRegex(text, r"In\[\d+\]:2:20.* in deep")
        self.assertRegex(text, r"at In\[\d+\]:3:1")
        self.assertNotIn("node:", text)
        self.assertNotIn("kernel", text)

    def test_a_failed_cell_keeps_what_it_had_set(self):
        self.execute("const before = 1; throw new Error('stop'); const after = 2")
        self.assertEqual(self.value("before"), "1")
        self.assertEqual(self.execute("after").error, "TypeCheckError")
        self.assertEqual(self.value("// @ts-nocheck\ntypeof after"), "'undefined'")

    def test_promise_rejections_are_reported_in_their_cell(self):
        out = self.execute("Promise.reject(new RangeError('lost')); await new Promise((r) => setTimeout(r, 50))")
        self.assertEqual(out.status, "ok")
        self.assertEqual([e["ename"] for e in out.of("error")], ["RangeError"])

    def test_a_timer_that_throws_reports_in_the_cell_that_started_it(self):
        late = []
        self.other = lambda msg: late.append(msg)
        first = self.execute(
            "let awaited = false, ticked = false;\n"
            "const timer = setInterval(() => { if (awaited) { clearInterval(timer); console.log('tick'); ticked = true; throw new Error('late') } }, 5)"
        )
        parent = first.messages[0]["parent_header"]["msg_id"]
        second = self.execute("awaited = true; while (!ticked) await new Promise((r) => setTimeout(r, 5)); 2")
        self.assertEqual((second.status, second.of("error"), second.text()), ("ok", [], ""))
        found = {m["msg_type"]: m for m in late if m["parent_header"].get("msg_id") == parent}
        self.assertEqual(found["error"]["content"]["evalue"], "late")
        self.assertEqual(found["stream"]["content"]["text"], "tick\n")

    def test_output_after_an_await_belongs_to_the_cell_that_awaits(self):
        late = []
        self.other = lambda msg: late.append(msg)
        self.execute("const pause = (ms: number) => new Promise((r) => setTimeout(r, ms))")
        first = self.execute("let second = false, said = false; void (async () => { while (!second) await pause(5); console.log('from the first'); said = true })()")
        parent = first.messages[0]["parent_header"]["msg_id"]
        second = self.execute("second = true; while (!said) await pause(5); console.log('from the second')")
        self.assertEqual(second.text(), "from the second\n")
        texts = [m["content"]["text"] for m in late if m["msg_type"] == "stream" and m["parent_header"]["msg_id"] == parent]
        self.assertEqual(texts, ["from the first\n"])

    def test_packages_are_found_from_any_folder(self):
        code = "import * as aq from 'arquero';\nimport { Body } from 'astronomy-engine';\naq.table({ body: [Body.Sun] }).numRows()"
        self.assertEqual(self.value(code), "1")

    def test_the_library_is_found_from_any_folder(self):
        self.assertEqual(self.value("import { angle } from 'cocked-hat'; angle('12°30′').degrees"), "12.5")

    def test_local_typescript_is_imported_again_after_a_change(self):
        def write(name, text):
            with open(os.path.join(self.cwd, name), "w") as file:
                file.write(text)

        write("inner.ts", "export const value: number = 1;\n")
        write("outer.ts", "import { value } from './inner.js';\nexport const twice = (): number => 2 * value;\n")
        cell = "import { twice } from './outer.ts'; twice()"
        if self.execute(cell).status != "ok":
            cell = "import { twice } from './outer'; twice()"
        self.assertEqual(self.value(cell), "2")
        write("inner.ts", "export const value: number = 21;\n")
        self.assertEqual(self.value(cell), "42")
        write("outer.ts", "export const twice = (): string => 'text';\n")
        self.assertEqual(self.value(cell + ".length"), "4")

    def test_values_show_as_they_say(self):
        out = self.execute("({ [Symbol.for('Jupyter.display')]: () => ({ 'text/html': '<b>fix</b>', 'text/plain': 'fix' }) })")
        self.assertEqual(out.of("execute_result")[0]["data"], {"text/html": "<b>fix</b>", "text/plain": "fix"})
        out = self.execute("({ [Symbol.for('Jupyter.display')]: () => ({ data: { 'text/html': 'x' }, metadata: { isolated: true } }) })")
        self.assertEqual(out.of("execute_result")[0]["metadata"], {"isolated": True})

    def test_the_display_of_tslab_works(self):
        out = self.execute("import * as tslab from 'tslab'; tslab.display.html('<i>x</i>'); const d = tslab.newDisplay(); d.text('1'); d.text('2')")
        self.assertEqual(out.status, "ok", out.reply)
        self.assertEqual([c["data"] for c in out.of("display_data")], [{"text/html": "<i>x</i>"}, {"text/plain": "1"}])
        self.assertEqual([c["data"] for c in out.of("update_display_data")], [{"text/plain": "2"}])


class ShadowTests(KernelCase):
    def test_a_cell_may_shadow_any_global(self):
        code = "const location = 'St Helena', process = 1, Map = 2, console2 = 3, name = 'Quillfeather', Promise = 4; [location, process, Map, name, Promise]"
        self.assertEqual(self.value(code), "[ 'St Helena', 1, 2, 'Quillfeather', 4 ]")
        self.assertEqual(self.value("name.length + process"), "13")
        self.assertEqual(self.value("await null; 5"), "5")


if __name__ == "__main__":
    unittest.main()
