"""Run by a test in a process of its own: ``killed_words.py COUNT WHOM WORD…`` runs linebook as typed, what it keeps too.

It is ended by kill -9 at the COUNT-th step of writing: an opening for writing, a flush to the disk, a move, a removal,
the making of a folder or a change of mode, in this process or in a copy of it, which count together. WHOM is ``one``
for the process whose step it is, ``all`` for its copies too. How many steps there were goes to the file that
``LINEBOOK_STEPS`` names.
"""

import mmap
import os
import signal
import struct
import sys

count, whom, words = int(sys.argv[1]), sys.argv[2], sys.argv[3:]
shared = mmap.mmap(-1, 8)
told = os.environ["LINEBOOK_STEPS"]


def step(what: str) -> None:
    (steps,) = struct.unpack("q", shared[:8])
    shared[:8] = struct.pack("q", steps + 1)
    if steps + 1 == count:
        with open(told, "a") as file:
            file.write(f"killed at {what}\n")
        if whom == "all":
            os.killpg(0, signal.SIGKILL)
        os.kill(os.getpid(), signal.SIGKILL)


def watch(event: str, values: tuple) -> None:
    names = [str(one) for one in values[:2]]
    if not names or "__pycache__" in names[0] or names[0] in (told, "/dev/null"):
        return
    if event in ("os.rename", "os.remove", "os.mkdir", "os.rmdir", "os.chmod", "os.link", "os.symlink", "os.truncate"):
        step(f"{event} {[name.rpartition('/')[2] for name in names]}")
    if event == "open" and isinstance(values[0], str) and values[2] & (os.O_WRONLY | os.O_RDWR):
        step(f"open {names[0].rpartition('/')[2]}")


fsync = os.fsync


def watched_fsync(descriptor: int) -> None:
    step("fsync")
    fsync(descriptor)


os.fsync = watched_fsync
sys.addaudithook(watch)
sys.argv = ["linebook", *words]

from linebook.cli.start import run  # noqa: E402

try:
    code = run()
finally:
    with open(told, "a") as file:
        file.write(f"{struct.unpack('q', shared[:8])[0]} steps\n")
sys.exit(code)
