"""An interrupt stops any cell, keeps what it has set, and leaves the kernel alive."""

import threading
import time
import unittest

from kernel_client import TIMEOUT, KernelCase


class InterruptTests(KernelCase):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        # A cell that waits for its types: a later one that did would be stopped before it runs, which one test is about.
        cls.client.execute("const ready: number = 0; ready")
        cls.client.get_shell_msg(timeout=TIMEOUT)

    def interrupt(self, code, when="after_text"):
        """Interrupts a cell a little after it has said 'begun' (or when it is taken), and looks at what that leaves."""
        after = 0.2 if when == "after_text" else 0.01
        stop = lambda: threading.Timer(after, self.manager.interrupt_kernel).start()
        pid = self.manager.provisioner.pid
        out = self.execute(code, **{when: stop})
        self.assertEqual(out.error, "KeyboardInterrupt", out.reply)
        self.assertEqual(len(out.of("error")), 1)
        self.assertTrue(self.manager.is_alive())
        self.assertEqual(self.manager.provisioner.pid, pid)
        return out

    def test_a_loop(self):
        out = self.interrupt("let a = 3;\nlet turns = 0;\nwhile (true) { if (++turns === 2000) console.log('begun') }")
        self.assertIn("In[", out.reply["traceback"][1])
        self.assertEqual(self.value("a"), "3")
        self.assertEqual(self.value("turns > 1000"), "true")

    def test_a_loop_that_awaits_a_timer(self):
        self.interrupt("let n = 0; while (true) { await new Promise((r) => setTimeout(r, 5)); if (++n === 4) console.log('begun') }")
        first = self.value("n")
        self.assertGreater(int(first), 3)
        time.sleep(0.2)
        self.assertEqual(self.value("n"), first)

    def test_a_loop_in_an_async_function(self):
        self.interrupt(
            "import { setTimeout as sleep } from 'node:timers/promises';\n"
            "let m = 0; async function go() { while (true) { await sleep(5); if (++m === 4) console.log('begun') } }\nawait go()"
        )
        first = self.value("m")
        self.assertGreater(int(first), 3)
        time.sleep(0.2)
        self.assertEqual(self.value("m"), first)

    def test_a_loop_that_awaits_nothing(self):
        self.interrupt("let b = 1; console.log('begun'); while (true) await null")
        self.assertEqual(self.value("b"), "1")

    def test_a_loop_after_an_await(self):
        self.interrupt("let c = 2; await null; console.log('begun'); while (true) {}")
        self.assertEqual(self.value("c"), "2")

    def test_a_promise_that_never_settles(self):
        self.interrupt("let d = 4; console.log('begun'); await new Promise<void>(() => {})")
        self.assertEqual(self.value("d"), "4")

    def test_a_pending_timer(self):
        self.interrupt("let fired = 0; setTimeout(() => fired++, 3000); console.log('begun'); await new Promise<void>(() => {})")
        time.sleep(3.2)
        self.assertEqual(self.value("fired"), "0")

    def test_a_loop_in_a_timer(self):
        self.interrupt("let e = 1; setTimeout(() => { console.log('begun'); while (true) e++ }, 5); await new Promise<void>(() => {})")
        self.assertEqual(self.value("e > 1"), "true")

    def test_a_loop_in_an_interval(self):
        self.interrupt("setInterval(() => { console.log('begun'); while (true) {} }, 5); await new Promise<void>(() => {})")
        self.assertEqual(self.value("1"), "1")

    def test_a_loop_in_an_immediate(self):
        self.interrupt("setImmediate(() => { console.log('begun'); while (true) {} }); await new Promise<void>(() => {})")
        self.assertEqual(self.value("1"), "1")

    def test_a_loop_after_a_promise_timer(self):
        self.interrupt("import { setTimeout as nap } from 'node:timers/promises'; await nap(5); console.log('begun'); while (true) {}")
        self.assertEqual(self.value("1"), "1")

    def test_a_loop_in_a_file_callback(self):
        self.interrupt(
            "import fs from 'node:fs'; fs.readdir('.', () => { console.log('begun'); while (true) {} });\n"
            "await new Promise<void>(() => {})"
        )
        self.assertEqual(self.value("1"), "1")

    def test_a_loop_in_next_tick(self):
        self.interrupt("process.nextTick(() => { console.log('begun'); while (true) {} }); await new Promise<void>(() => {})")
        self.assertEqual(self.value("1"), "1")

    def test_finally_blocks_of_an_awaiting_cell_run(self):
        out = self.interrupt(
            "try { console.log('begun'); await new Promise<void>(() => {}) } finally { console.log('watch over') }"
        )
        self.assertEqual(out.text(), "begun\nwatch over\n")

    def test_a_question_to_the_reader(self):
        stop = lambda: threading.Timer(0.5, self.manager.interrupt_kernel).start()
        self.client.allow_stdin = True
        msg_id = self.client.execute("let f = 6; prompt('course? ')", allow_stdin=True)
        self.client.get_stdin_msg(timeout=TIMEOUT)
        stop()
        reply = self.reply_to(msg_id, "execute_reply")
        self.assertEqual(reply["ename"], "KeyboardInterrupt")
        self.assertEqual(self.value("f"), "6")

    def test_cells_behind_an_interrupted_one_are_dropped(self):
        first = self.client.execute("console.log('begun'); while (true) {}")
        second = self.client.execute("let neverRun = 1")
        self.await_text(first)
        time.sleep(0.5)
        self.manager.interrupt_kernel()
        self.assertEqual(self.reply_to(first, "execute_reply")["status"], "error")
        self.assertEqual(self.reply_to(second, "execute_reply")["status"], "aborted")

    def test_a_regular_expression_gone_wild(self):
        self.interrupt("let i = 8; console.log('begun'); /^(a+)+$/.test('a'.repeat(60) + 'b')")
        self.assertEqual(self.value("i"), "8")

    def test_a_cell_whose_types_are_being_checked(self):
        self.interrupt("import * as ts from 'typescript'; while (true) {}", when="after_start")
        # Checked behind the one that was given up, so that the next test finds the judge of types free.
        self.assertEqual(self.value("const freed: number = 1; freed"), "1")

    def test_an_interrupt_with_nothing_running_does_no_harm(self):
        self.manager.interrupt_kernel()
        time.sleep(0.5)
        self.assertEqual(self.value("let g = 7; g"), "7")

    def test_ten_interrupts_one_after_the_other(self):
        for turn in range(10):
            self.interrupt(f"let h{turn} = {turn}; console.log('begun'); while (true) {{}}")
        self.assertEqual(self.value("[h0, h9]"), "[ 0, 9 ]")


if __name__ == "__main__":
    unittest.main()
