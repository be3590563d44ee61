"""Messages of the protocol besides those that jupyter_kernel_test sends."""

import json
import time
import unittest

import psutil
from kernel_client import TIMEOUT, KernelCase, iopub, is_idle


class MessageTests(KernelCase):
    def test_input_is_asked_of_the_reader(self):
        out = self.execute("prompt('height of eye? ') + ' m'", answer="2.6")
        self.assertEqual(out.of("input_request")[0], {"prompt": "height of eye? ", "password": False})
        self.assertEqual(out.result, "'2.6 m'")
        long = "°" * 200_000
        self.assertEqual(self.execute("prompt.password('?').length", answer=long).result, "200000")

    def test_input_without_a_reader_is_an_error(self):
        self.assertEqual(self.execute("prompt('?')").status, "error")

    def test_a_display_can_be_updated_and_cleared(self):
        out = self.execute("display('a', { id: 'x' }); display.update('x', 'b'); display.clear(true)")
        self.assertEqual(out.of("display_data")[0]["transient"], {"display_id": "x"})
        self.assertEqual(out.of("update_display_data")[0]["data"], {"text/plain": "'b'"})
        self.assertEqual(out.of("clear_output"), [{"wait": True}])
        later = self.execute("display.update('x', 'c')")
        self.assertEqual(later.of("update_display_data")[0]["transient"], {"display_id": "x"})

    def test_silent_cells_send_nothing_and_take_no_number(self):
        before = self.execute("1").reply["execution_count"]
        out = self.execute("2; 3", silent=True)
        self.assertEqual([m["msg_type"] for m in out.messages if m["msg_type"] != "status"], [])
        self.assertEqual(self.execute("1").reply["execution_count"], before + 1)

    def test_cells_out_of_history_take_no_number(self):
        before = self.execute("1").reply["execution_count"]
        self.assertEqual(self.execute("40 + 2", store_history=False).result, "42")
        self.assertEqual(self.execute("1").reply["execution_count"], before + 1)

    def test_user_expressions(self):
        out = self.execute("const ex = 6", user_expressions={"good": "ex * 7", "bad": "nowhere"})
        values = out.reply["user_expressions"]
        self.assertEqual(values["good"]["data"]["text/plain"], "42")
        self.assertEqual(values["bad"]["status"], "error")

    def test_cells_behind_a_failed_one_are_dropped(self):
        # The first waits for its reader until the others have been read, which the answered completion shows.
        ids = [self.client.execute("prompt('now? '); throw new Error('x')", allow_stdin=True)]
        ids += [self.client.execute(code) for code in ("1", "2")]
        self.reply_to(self.client.complete("x", 1), "complete_reply")
        self.client.get_stdin_msg(timeout=TIMEOUT)
        self.client.input("yes")
        statuses = [self.reply_to(i, "execute_reply")["status"] for i in ids]
        self.assertEqual(statuses, ["error", "aborted", "aborted"])
        ids = [self.client.execute(code, stop_on_error=False) for code in ("throw new Error('x')", "1")]
        self.assertEqual([self.reply_to(i, "execute_reply")["status"] for i in ids], ["error", "ok"])

    def test_completion_counts_code_points(self):
        code = "const s = '🧭🧭'; Math.flo"
        msg_id = self.client.complete(code, len(code))
        reply = self.reply_to(msg_id, "complete_reply")
        self.assertEqual(reply["matches"], ["floor"])
        self.assertEqual(code[reply["cursor_start"] : reply["cursor_end"]], "flo")

    def test_completion_knows_the_names_of_earlier_cells(self):
        self.execute("const quillfeather = { lengthOverall: 11.2, draught: 1.8 }")
        reply = self.reply_to(self.client.complete("quillf"), "complete_reply")
        self.assertEqual(reply["matches"], ["quillfeather"])
        reply = self.reply_to(self.client.complete("quillfeather."), "complete_reply")
        self.assertEqual(reply["matches"], ["draught", "lengthOverall"])
        kinds = {e["text"]: e["type"] for e in reply["metadata"]["_jupyter_types_experimental"]}
        self.assertEqual(kinds["draught"], "property")

    def test_completion_answers_while_a_cell_runs(self):
        running = self.client.execute("console.log('begun'); while (true) {}")
        self.await_text(running)
        self.reply_to(self.client.complete("Math.sq"), "complete_reply")
        self.manager.interrupt_kernel()
        self.assertEqual(self.reply_to(running, "execute_reply")["ename"], "KeyboardInterrupt")

    def test_the_first_message_of_a_subscription_is_its_welcome(self):
        # Statuses go out without pause meanwhile; before the cure 7 of 10 subscriptions met one first.
        firsts = []
        for _ in range(20):
            for _ in range(3):
                self.client.kernel_info()
            late = self.manager.client()
            late.start_channels(shell=False, stdin=False, hb=False, control=False)
            for _ in range(5):
                self.client.kernel_info()
            firsts.append(late.get_iopub_msg(timeout=TIMEOUT)["msg_type"])
            late.stop_channels()
        self.assertEqual(set(firsts), {"iopub_welcome"}, firsts)

    def test_inspection_shows_signature_and_documentation(self):
        self.execute("/** Dip of the horizon.\n * @param heightM height of eye, metres */\nfunction dipOf(heightM: number) { return 1.76 * Math.sqrt(heightM) }")
        code = "'🧭'; dipOf(2)"
        reply = self.reply_to(self.client.inspect(code, 8), "inspect_reply")
        self.assertTrue(reply["found"])
        self.assertIn("dipOf(heightM: number): number", reply["data"]["text/plain"])
        self.assertIn("Dip of the horizon.", reply["data"]["text/markdown"])
        self.assertIn("height of eye, metres", reply["data"]["text/plain"])

    def test_comms_open_from_both_sides(self):
        self.execute("kernel.comms.register('echo', (comm, opened) => { comm.onMessage = (m: any) => comm.send({ echo: m.data, opened: opened.data }, m.buffers) })")
        opened = self.send("comm_open", {"comm_id": "c1", "target_name": "echo", "data": {"a": 1}})
        self.idle(opened)
        message = self.send("comm_msg", {"comm_id": "c1", "data": {"q": 5}}, buffers=[b"\x01\x02"])
        sent = self.idle(message)
        echo = [m for m in sent if m["msg_type"] == "comm_msg"][0]
        self.assertEqual(echo["content"], {"comm_id": "c1", "data": {"echo": {"q": 5}, "opened": {"a": 1}}})
        self.assertEqual([bytes(b) for b in echo["buffers"]], [b"\x01\x02"])
        info = self.reply_to(self.client.comm_info("echo"), "comm_info_reply")
        self.assertEqual(info["comms"], {"c1": {"target_name": "echo"}})
        self.idle(self.send("comm_close", {"comm_id": "c1", "data": {}}))
        self.assertEqual(self.reply_to(self.client.comm_info(), "comm_info_reply")["comms"], {})

        out = self.execute("const view = kernel.comms.open('page', { x: 1 }); view.onMessage = (m: any) => { console.log('got', m.data.y) }; view.send({ x: 2 })")
        opened = out.of("comm_open")[0]
        self.assertEqual((opened["target_name"], opened["data"]), ("page", {"x": 1}))
        self.assertEqual(out.of("comm_msg")[0]["data"], {"x": 2})
        sent = self.idle(self.send("comm_msg", {"comm_id": opened["comm_id"], "data": {"y": 3}}))
        self.assertEqual([m["content"]["text"] for m in sent if m["msg_type"] == "stream"], ["got 3\n"])

    def test_an_open_to_an_unknown_target_is_closed(self):
        sent = self.idle(self.send("comm_open", {"comm_id": "c9", "target_name": "nobody", "data": {}}))
        self.assertEqual([m["content"]["comm_id"] for m in sent if m["msg_type"] == "comm_close"], ["c9"])

    def test_badly_signed_and_repeated_messages_are_dropped(self):
        session = self.client.session
        msg = session.msg("execute_request", {"code": "let forged = 1", "silent": False})
        key, session.key = session.key, b"another key"
        session.send(self.client.shell_channel.socket, msg)
        session.key = key
        frames = session.serialize(session.msg("execute_request", {"code": "var times = (globalThis as any).t = ((globalThis as any).t ?? 0) + 1", "silent": False}))
        for _ in range(2):
            self.client.shell_channel.socket.send_multipart(frames)
        self.assertEqual(self.value("(globalThis as any).t"), "1")
        self.assertEqual(self.value("// @ts-nocheck\ntypeof forged"), "'undefined'")

    def test_nothing_but_the_connection_file_is_listened_to(self):
        ports = {self.manager.shell_port, self.manager.iopub_port, self.manager.stdin_port, self.manager.control_port, self.manager.hb_port}
        process = psutil.Process(self.manager.provisioner.pid)
        bound = {(c.laddr.ip, c.laddr.port) for c in process.net_connections() if c.status == "LISTEN"}
        self.assertEqual(bound, {("127.0.0.1", port) for port in ports})

    def test_the_heartbeat_answers_during_a_loop(self):
        running = self.client.execute("console.log('begun'); while (true) {}")
        self.await_text(running)
        # Longer than the second after which a heart that does not answer is called dead.
        time.sleep(1.5)
        end = time.monotonic() + TIMEOUT
        while not self.client.hb_channel.is_beating() and time.monotonic() < end:
            time.sleep(0.1)
        self.assertTrue(self.client.hb_channel.is_beating())
        self.manager.interrupt_kernel()
        self.assertEqual(self.reply_to(running, "execute_reply")["ename"], "KeyboardInterrupt")

    def test_unknown_requests_do_no_harm(self):
        self.send("unheard_of_request", {})
        self.client.shell_channel.socket.send_multipart([b"garbage"])
        self.client.shell_channel.socket.send_multipart([b"<IDS|MSG>", b"", b"{", b"{", b"{", b"{"])
        self.assertEqual(self.value("1"), "1")

    def idle(self, msg_id):
        """All output of a request, up to its idle status."""
        sent = []
        for msg in iopub(self.client):
            if msg["parent_header"].get("msg_id") != msg_id:
                continue
            if is_idle(msg):
                return sent
            sent.append(msg)
        self.fail("no idle status")


class ShutdownTests(unittest.TestCase):
    def test_shutdown_leaves_no_process(self):
        from jupyter_client.manager import start_new_kernel

        manager, client = start_new_kernel(kernel_name="cocked-hat", startup_timeout=TIMEOUT)
        client.execute("while (true) {}")
        time.sleep(0.5)
        pid = manager.provisioner.pid
        family = [psutil.Process(pid), *psutil.Process(pid).children(recursive=True)]
        client.stop_channels()
        # It ends of itself when asked; the manager would kill it after this time.
        manager.shutdown_wait_time = TIMEOUT
        start = time.monotonic()
        manager.shutdown_kernel()
        self.assertLess(time.monotonic() - start, TIMEOUT / 2)
        self.assertEqual([p for p in family if p.is_running() and p.status() != "zombie"], [])

    def test_the_kernel_ends_with_the_program_that_started_it(self):
        import os
        import signal
        import subprocess
        import sys

        code = "from jupyter_client.manager import start_new_kernel\nimport time\nm, c = start_new_kernel(kernel_name='cocked-hat', startup_timeout=60)\nprint(m.provisioner.pid, flush=True)\ntime.sleep(100)"
        parent = subprocess.Popen([sys.executable, "-c", code], stdout=subprocess.PIPE, text=True)
        pid = int(parent.stdout.readline())
        parent.send_signal(signal.SIGKILL)
        parent.wait()
        parent.stdout.close()
        end = time.monotonic() + TIMEOUT
        while time.monotonic() < end and psutil.pid_exists(pid):
            time.sleep(0.1)
        self.assertFalse(psutil.pid_exists(pid))


if __name__ == "__main__":
    unittest.main()
