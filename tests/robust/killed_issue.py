"""Run by a test in a process of its own: ``killed_issue.py COUNT ARGUMENT…`` runs linebook with these arguments where it
stands, and ends it as by kill -9 at the COUNT-th step of writing.

A step is an opening for writing, a flush to the disk, a move, a removal or the making of a folder.
"""

import os
import sys

count, arguments = int(sys.argv[1]), sys.argv[2:]
steps = 0
HERE = os.getcwd()


def step(what: str) -> None:
    global steps  # noqa: PLW0603
    steps += 1
    if steps == count:
        os.write(1, f"killed at {what}\n".encode())
        os._exit(137)


def watch(event: str, values: tuple) -> None:
    names = [str(one) for one in values[:2]]
    if event in ("os.rename", "os.remove", "os.mkdir") and not any("__pycache__" in name for name in names):
        step(f"{event} {[name.rpartition('/')[2] for name in names]}")
    if event == "open" and names[0].endswith(".part"):
        step(f"open {names[0].rpartition('/')[2]}")


fsync = os.fsync


def watched_fsync(descriptor: int) -> None:
    step("fsync")
    fsync(descriptor)


os.fsync = watched_fsync
sys.addaudithook(watch)

from linebook.cli.main import command  # noqa: E402

try:
    command(arguments, prog_name="linebook")
except SystemExit as leaving:
    print(f"{steps} steps")
    sys.exit(leaving.code)
