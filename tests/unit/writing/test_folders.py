"""A folder is wholly old or wholly new whatever happens, and nobody else's file is ever taken away."""

from __future__ import annotations

import contextlib
import hashlib
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from linebook.writing import folders
from linebook.writing.folders import find_others, replace_folder

LIST = "list.txt"
OLD = [("index.html", b"old"), ("gone.html", b"old too")]
NEW = [("index.html", b"new"), ("more.html", b"new too"), ("most.html", b"")]


def _held(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir() if path.name != LIST}


def test_what_is_no_longer_made_vanishes(tmp_path: Path) -> None:
    folder = tmp_path / "deep" / "screen"
    replace_folder(folder, OLD, LIST)
    replace_folder(folder, NEW, LIST)
    assert _held(folder) == dict(NEW)
    assert [path.name for path in folder.parent.iterdir()] == ["screen"]


def test_the_list_is_in_the_form_of_checksum_programs(tmp_path: Path) -> None:
    replace_folder(tmp_path / "screen", OLD, LIST)
    lines = (tmp_path / "screen" / LIST).read_text().splitlines()
    assert sorted(lines) == sorted(f"{hashlib.sha256(content).hexdigest()}  {name}" for name, content in OLD)


@pytest.mark.parametrize(
    ("spoil", "others"),
    [
        (lambda folder: (folder / "notes.txt").write_text("mine"), ("notes.txt",)),
        (lambda folder: (folder / "index.html").write_text("edited"), ("index.html",)),
        (lambda folder: (folder / "photos").mkdir(), ("photos",)),
        (lambda folder: (folder / LIST).unlink(), ("gone.html", "index.html")),
        (lambda folder: (folder / LIST).write_bytes(b"\xff\x00 nothing of ours"), ("gone.html", "index.html")),
        (
            lambda folder: (folder / "gone.html").unlink() or (folder / "gone.html").symlink_to("index.html"),
            ("gone.html",),
        ),
        (lambda folder: (folder / ".DS_Store").write_bytes(b""), ()),
        (lambda folder: (folder / "gone.html").unlink(), ()),
    ],
)
def test_what_others_put_there_stays(tmp_path: Path, spoil: Callable[[Path], object], others: tuple[str, ...]) -> None:
    folder = tmp_path / "screen"
    replace_folder(folder, OLD, LIST)
    spoil(folder)
    before = sorted(os.listdir(folder))
    assert find_others(folder, LIST) == others
    if not others:
        replace_folder(folder, NEW, LIST)
        assert _held(folder) == dict(NEW)
        return
    with pytest.raises(FileExistsError):
        replace_folder(folder, NEW, LIST)
    assert sorted(os.listdir(folder)) == before
    assert os.listdir(tmp_path) == ["screen"]


def test_an_empty_folder_and_none_are_ours(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    assert find_others(tmp_path / "empty", LIST) == find_others(tmp_path / "none", LIST) == ()
    replace_folder(tmp_path / "empty", NEW, LIST)
    assert _held(tmp_path / "empty") == dict(NEW)


def test_a_list_cannot_lead_out_of_its_folder(tmp_path: Path) -> None:
    (tmp_path / "precious").write_bytes(b"old")
    folder = tmp_path / "screen"
    replace_folder(folder, OLD, LIST)
    digest = hashlib.sha256(b"old").hexdigest()
    with (folder / LIST).open("a") as file:
        file.write(f"{digest}  ../precious\n{digest}  ..\n{digest}  {tmp_path}/precious\n")
    replace_folder(folder, NEW, LIST)
    assert (tmp_path / "precious").read_bytes() == b"old"


def test_a_link_to_a_folder_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    (tmp_path / "screen").symlink_to("real")
    replace_folder(tmp_path / "screen", NEW, LIST)
    assert (tmp_path / "screen").is_symlink()
    assert _held(tmp_path / "real") == dict(NEW)


@pytest.mark.parametrize("at_once", [True, False])
@pytest.mark.parametrize("call", ["fsync", "rename", "unlink", "mkdir", "rmdir"])
@pytest.mark.parametrize("nth", [1, 2, 3])
@pytest.mark.parametrize("failure", [OSError("no space left"), KeyboardInterrupt()])
def test_a_failure_leaves_one_of_the_two(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, at_once: bool, call: str, nth: int, failure: BaseException
) -> None:
    folder = tmp_path / "screen"
    replace_folder(folder, OLD, LIST)
    if not at_once:
        monkeypatch.setattr(folders, "_exchange", lambda one, other: False)
    real: Callable[..., object] = getattr(os, call)
    calls = 0

    def failing(*arguments: object, **named: object) -> object:
        nonlocal calls
        calls += 1
        if calls == nth:
            raise failure
        return real(*arguments, **named)

    with monkeypatch.context() as patched:
        patched.setattr(os, call, failing)
        with contextlib.suppress(type(failure)):
            replace_folder(folder, NEW, LIST)
    assert _held(folder) in (dict(OLD), dict(NEW))
    replace_folder(folder, NEW, LIST)
    assert _held(folder) == dict(NEW)
    assert os.listdir(tmp_path) == ["screen"]


KILLED = """
import os, sys
from pathlib import Path
from linebook.writing import folders

count, steps = int(sys.argv[2]), 0

def step():
    global steps
    steps += 1
    if steps == count:
        os._exit(137)

def watch(event, arguments):
    if event in ("os.rename", "os.remove", "os.mkdir", "os.rmdir") or (event == "open" and os.path.dirname(sys.argv[1]) in str(arguments[0])):
        step()

exchange = folders._exchange

def watched(one, other):
    step()
    return exchange(one, other) if sys.argv[3] == "at once" else False

folders._exchange = watched
sys.addaudithook(watch)
folders.replace_folder(Path(sys.argv[1]), [("index.html", b"new"), ("more.html", b"new too"), ("most.html", b"")], "list.txt")
print(steps)
"""


def _run_killed(folder: Path, count: int, how: str) -> subprocess.CompletedProcess[str]:
    arguments = [sys.executable, "-c", KILLED, str(folder), str(count), how]
    return subprocess.run(arguments, capture_output=True, text=True, check=False)


@pytest.mark.parametrize("how", ["at once", "in two moves"])
def test_a_killed_run_leaves_one_of_the_two(tmp_path: Path, how: str) -> None:
    replace_folder(tmp_path / "whole" / "screen", OLD, LIST)
    steps = int(_run_killed(tmp_path / "whole" / "screen", 0, how).stdout)
    assert steps > 15
    absent = 0
    for count in range(1, steps + 1):
        folder = tmp_path / str(count) / "screen"
        replace_folder(folder, OLD, LIST)
        assert _run_killed(folder, count, how).returncode == 137
        absent += not folder.exists()
        assert not folder.exists() or _held(folder) in (dict(OLD), dict(NEW))
        replace_folder(folder, NEW, LIST)
        assert _held(folder) == dict(NEW)
        assert os.listdir(folder.parent) == ["screen"], count
    # Where the system cannot exchange two folders there is one moment between two moves: no page, but no stale one.
    assert absent == (0 if how == "at once" else 1)
