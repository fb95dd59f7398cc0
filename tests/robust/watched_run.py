"""Run by a test in a process of its own: ``watched_run.py LOG ARGUMENTS…`` runs linebook and logs all it opens, asks for or starts.

A line of LOG is one event, as JSON; a copy of the process logs there too. Only what Python itself reports is seen (its
audit events); what C code opens by itself is not.
"""

import json
import os
import sys

log = os.open(sys.argv[1], os.O_WRONLY | os.O_CREAT | os.O_APPEND)
PARTS = [
    "socket",
    "subprocess",
    "os",
    "shutil",
    "ctypes",
    "urllib",
    "http",
    "ftplib",
    "smtplib",
    "tempfile",
    "pty",
    "webbrowser",
    "code",
]


def note(event: str, path: object, other: object = "") -> None:
    os.write(log, json.dumps([event, str(path), str(other)]).encode() + b"\n")


def watch(event: str, arguments: tuple) -> None:
    if event == "open":
        path, _, flags = arguments
        if isinstance(path, int):
            return  # wraps a descriptor whose opening has been seen
        written = flags & (os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC | os.O_APPEND)
        note("write" if written else "read", os.path.abspath(os.fsdecode(path)))
    elif event.partition(".")[0] in PARTS and "." in event:
        note(event, *(*arguments, "", "")[:2])


sys.addaudithook(watch)

from linebook.cli.main import command  # noqa: E402

command(sys.argv[2:], prog_name="linebook", obj=tuple(sys.argv[2:]))
