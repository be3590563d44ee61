"""A Jupyter client for the kernel's tests; every message it gets is checked against the protocol."""

import queue
import time
import unittest

from jupyter_client.manager import start_new_kernel
from jupyter_kernel_test.msgspec_v5 import validate_message

TIMEOUT = 60


def check(msg, msg_type, msg_id):
    """Validates a message; the schemas of jupyter_kernel_test leave out comms, and spell "aborted" otherwise."""
    if msg_type.startswith("comm_") or msg["content"].get("status") == "aborted":
        return
    validate_message(msg, msg_type, msg_id)


def iopub(client, timeout=TIMEOUT):
    """Every message on the kernel's output channel as it comes, for so many seconds."""
    end = time.monotonic() + timeout
    while time.monotonic() < end:
        try:
            yield client.get_iopub_msg(timeout=0.2)
        except queue.Empty:
            continue


def is_idle(msg):
    return msg["msg_type"] == "status" and msg["content"]["execution_state"] == "idle"


class Result:
    def __init__(self):
        self.messages = []
        self.reply = None

    def of(self, msg_type):
        return [m["content"] for m in self.messages if m["msg_type"] == msg_type]

    def text(self, name="stdout"):
        return "".join(c["text"] for c in self.of("stream") if c["name"] == name)

    @property
    def result(self):
        results = self.of("execute_result")
        return results[-1]["data"]["text/plain"] if results else None

    @property
    def status(self):
        return self.reply["status"] if self.reply else None

    @property
    def error(self):
        return self.reply.get("ename") if self.reply else None


class KernelCase(unittest.TestCase):
    """Starts one kernel for the tests of a class."""

    cwd = None

    @classmethod
    def setUpClass(cls):
        kwargs = {"cwd": cls.cwd} if cls.cwd else {}
        cls.manager, cls.client = start_new_kernel(
            kernel_name="cocked-hat", startup_timeout=TIMEOUT, **kwargs
        )

    @classmethod
    def tearDownClass(cls):
        cls.client.stop_channels()
        cls.manager.shutdown_kernel()

    def execute(self, code, timeout=TIMEOUT, after_start=None, after_text=None, answer=None, **options):
        """Runs a cell and gathers all it sends until its idle status.

        `after_start` is called once the cell is taken, `after_text` once it has printed its first text.
        """
        client, out = self.client, Result()
        msg_id = client.execute(code, allow_stdin=answer is not None, **options)
        end = time.monotonic() + timeout
        started = False
        while time.monotonic() < end:
            if answer is not None:
                try:
                    question = client.get_stdin_msg(timeout=0.01)
                    out.messages.append(question)
                    client.input(answer)
                except queue.Empty:
                    pass
            try:
                msg = client.get_iopub_msg(timeout=0.05)
            except queue.Empty:
                continue
            if msg["parent_header"].get("msg_id") != msg_id:
                self.other(msg)
                continue
            check(msg, msg["msg_type"], msg_id)
            if is_idle(msg):
                break
            if msg["msg_type"] == "execute_input" and after_start and not started:
                started = True
                after_start()
            if msg["msg_type"] == "stream" and after_text and not out.of("stream"):
                after_text()
            out.messages.append(msg)
        else:
            self.fail(f"no end within {timeout} s: {code[:80]}")
        out.reply = self.reply_to(msg_id, "execute_reply")
        return out

    def other(self, msg):
        """Called with output of another cell or request."""

    def reply_to(self, msg_id, msg_type, channel="shell"):
        end = time.monotonic() + TIMEOUT
        get = self.client.get_shell_msg if channel == "shell" else self.client.get_control_msg
        while time.monotonic() < end:
            msg = get(timeout=TIMEOUT)
            if msg["parent_header"].get("msg_id") == msg_id:
                check(msg, msg_type, msg_id)
                return msg["content"]
        self.fail(f"no {msg_type}")

    def await_text(self, msg_id):
        """Waits for the first text of a cell that runs, which it prints before it ends."""
        for msg in iopub(self.client):
            if msg["parent_header"].get("msg_id") != msg_id:
                continue
            if msg["msg_type"] == "stream":
                return
            if is_idle(msg):
                break
        self.fail("no text while it ran")

    def value(self, code):
        out = self.execute(code)
        self.assertEqual(out.status, "ok", out.reply)
        return out.result

    def send(self, msg_type, content, channel="shell", buffers=None, metadata=None):
        msg = self.client.session.msg(msg_type, content, metadata=metadata)
        stream = getattr(self.client, f"{channel}_channel").socket
        self.client.session.send(stream, msg, buffers=buffers)
        return msg["header"]["msg_id"]
