"""Large and many outputs: none is lost, none overtakes another, a flood is cut off with a notice."""

import unittest

from kernel_client import KernelCase


class StreamTests(KernelCase):
    def test_two_thousand_lines_arrive_in_order(self):
        # Plain tslab 1.0.22 shows 510 of them and hangs.
        out = self.execute("for (let i = 0; i < 2000; i++) console.log('line', i)")
        self.assertEqual(out.text().splitlines(), [f"line {i}" for i in range(2000)])

    def test_streams_keep_their_order(self):
        out = self.execute("for (let i = 0; i < 50; i++) { console.log(i); console.error(i); display(i) }")
        kinds = [
            m["content"].get("name", "display")
            for m in out.messages
            if m["msg_type"] in ("stream", "display_data")
        ]
        self.assertEqual(kinds, ["stdout", "stderr", "display"] * 50)

    def test_ten_thousand_displays_arrive_in_order(self):
        out = self.execute("for (let i = 0; i < 10_000; i++) display.text(String(i))", timeout=120)
        shown = [c["data"]["text/plain"] for c in out.of("display_data")]
        self.assertEqual(shown, [str(i) for i in range(10_000)])

    def test_a_hundred_megabytes_arrive_whole(self):
        out = self.execute("display.text('0123456789'.repeat(10_000_000)); 'done'", timeout=180)
        text = out.of("display_data")[0]["data"]["text/plain"]
        self.assertEqual((len(text), text[:12], text[-10:]), (100_000_000, "012345678901", "0123456789"))
        self.assertEqual(out.result, "'done'")

    def test_a_flood_is_cut_off_with_a_notice(self):
        out = self.execute(
            "let lines = 0; const end = Date.now() + 60_000;\n"
            "while (lines < 3_000_000 && Date.now() < end) console.log('the same line again and again', lines++)",
            timeout=150,
        )
        self.assertEqual(out.status, "ok")
        self.assertLess(len(out.text()), 20_000_000)
        self.assertIn("output was cut off", out.text("stderr"))
        self.assertEqual(self.execute("console.log('the next cell prints')").text(), "the next cell prints\n")

    def test_text_written_before_an_error_comes_before_it(self):
        out = self.execute("console.log('first'); throw new Error('then')")
        kinds = [m["msg_type"] for m in out.messages if m["msg_type"] in ("stream", "error")]
        self.assertEqual(kinds, ["stream", "error"])

    def test_output_appears_while_a_cell_computes(self):
        msg_id = self.client.execute("console.log('early'); while (true) {}")
        self.await_text(msg_id)
        self.manager.interrupt_kernel()
        self.assertEqual(self.reply_to(msg_id, "execute_reply")["ename"], "KeyboardInterrupt")


if __name__ == "__main__":
    unittest.main()
