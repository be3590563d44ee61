"""The kernel, as Jupyter starts it: python -m cocked_hat.kernel CONNECTION_FILE."""

import sys

from .program import run

if __name__ == "__main__":
    sys.exit(run("kernel/main.cjs", sys.argv[1:], ("--disable-warning=ExperimentalWarning",)))
