"""Run by a test in a process of its own: ``killed_run.py OUT DAY COUNT HOUSE`` binds HOUSE into OUT, and ends it as by kill -9 at the COUNT-th step of writing.

A step is an opening for writing, a flush to the disk, a move, a removal or the making of a folder.
"""

import os
import sys

out, day, count, house = sys.argv[1], sys.argv[2], int(sys.argv[3]), sys.argv[4]
steps = 0


def step(what: str) -> None:
    global steps  # noqa: PLW0603
    steps += 1
    if steps == count:
        os.write(1, f"killed at {what}\n".encode())
        os._exit(137)


def watch(event: str, arguments: tuple) -> None:
    if event in ("os.rename", "os.remove", "os.mkdir") and out in str(arguments):
        step(f"{event} {[str(one).rpartition('/')[2] for one in arguments[:2]]}")
    if event == "open" and isinstance(arguments[0], str) and arguments[0].startswith(out):
        step(f"open {arguments[0].rpartition('/')[2]}")


fsync = os.fsync


def watched_fsync(descriptor: int) -> None:
    step("fsync")
    fsync(descriptor)


os.fsync = watched_fsync
sys.addaudithook(watch)

from linebook.cli.main import command  # noqa: E402

try:
    command(["bind", house, "--date", day, "-o", out], prog_name="linebook")
except SystemExit as leaving:
    print(f"{steps} steps")
    sys.exit(leaving.code)
