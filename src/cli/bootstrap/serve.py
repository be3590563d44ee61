"""Runs JupyterLab, and stops it when the program that started it is gone.

That program holds the other end of our standard input; reading comes to an end when it closes.
"""

import os
import signal
import sys
import threading

from jupyterlab.labapp import main


def stop_with_starter() -> None:
    # Not sys.stdin: Python would complain at its end about a reader that still waits.
    while os.read(0, 4096):
        pass
    os.kill(os.getpid(), signal.SIGTERM)


threading.Thread(target=stop_with_starter, daemon=True).start()
sys.exit(main())
