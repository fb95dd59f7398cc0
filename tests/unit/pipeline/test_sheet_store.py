"""What is kept is believed only where it is whole, of the same state, and nobody else could have written it."""

from __future__ import annotations

import os
import subprocess
import sys
from hashlib import sha256
from pathlib import Path

import pytest

from linebook.sheet_store import SheetStore, open_store


@pytest.fixture
def store(tmp_path: Path) -> SheetStore:
    opened = open_store(tmp_path / "cache" / "linebook", "one")
    assert opened is not None
    return opened


def files(tmp_path: Path) -> list[Path]:
    return sorted((tmp_path / "cache" / "linebook" / "one").iterdir())


def test_what_is_written_is_read(store: SheetStore, tmp_path: Path) -> None:
    part = store.write(b"a part")
    store.write_list("state", b"the list", [part])
    assert (store.read_list("state"), store.read(part)) == (b"the list", b"a part")
    assert all(not path.stat().st_mode & 0o077 for path in (*files(tmp_path), tmp_path / "cache" / "linebook"))


def test_of_another_state_there_is_nothing(store: SheetStore) -> None:
    store.write_list("state", b"the list", [])
    assert store.read_list("stat") is None
    assert store.read_list("state2") is None


def test_only_the_parts_of_the_last_list_stay(store: SheetStore, tmp_path: Path) -> None:
    old, new = store.write(b"old"), store.write(b"new")
    store.write_list("state", b"1", [old, new])
    store.write_list("state", b"2", [new])
    assert store.read(old) is None
    assert store.read(new) == b"new"
    assert len(files(tmp_path)) == 2


def test_what_is_not_whole_is_not_there(store: SheetStore, tmp_path: Path) -> None:
    part = store.write(b"a part of some length")
    store.write_list("state", b"a list of some length", [part])
    for path in files(tmp_path):
        content = path.read_bytes()
        for spoilt in (*(content[:length] for length in range(len(content))), content + b"x", content[:-1] + b"y"):
            path.write_bytes(spoilt)
            assert (store.read(part) if path.name == part else store.read_list("state")) is None
        path.write_bytes(content)
    assert (store.read_list("state"), store.read(part)) == (b"a list of some length", b"a part of some length")


@pytest.mark.skipif(not hasattr(os, "getuid"), reason="no users here")
def test_what_others_may_write_is_not_believed(tmp_path: Path) -> None:
    place = tmp_path / "cache" / "linebook"
    store = open_store(place, "one")
    assert store is not None
    part = store.write(b"a part")
    for path in files(tmp_path):
        path.chmod(0o666)
    assert store.read(part) is None
    for path in files(tmp_path):
        path.chmod(0o600)
        real = path.rename(tmp_path / "elsewhere")
        path.symlink_to(real)
    assert store.read(part) is None
    for folder in (place, place / "one"):
        folder.chmod(0o777)
        assert open_store(place, "one") is None
        folder.chmod(0o700)
    assert open_store(place, "one") is not None
    moved = place.rename(tmp_path / "moved")
    place.symlink_to(moved)
    assert open_store(place, "one") is None


@pytest.mark.skipif(not hasattr(os, "getuid"), reason="no users here")
def test_what_another_user_wrote_is_not_believed(store: SheetStore, tmp_path: Path, monkeypatch) -> None:  # type: ignore[no-untyped-def]
    part = store.write(b"a part")
    mine = os.getuid()
    monkeypatch.setattr(os, "getuid", lambda: mine + 1)
    assert store.read(part) is None
    assert open_store(tmp_path / "cache" / "linebook", "one") is None


def test_a_pipe_in_the_place_of_a_part_is_not_waited_for(store: SheetStore, tmp_path: Path) -> None:
    part = store.write(b"a part")
    path = tmp_path / "cache" / "linebook" / "one" / part
    path.unlink()
    os.mkfifo(path)
    assert store.read(part) is None


def test_so_many_prints_are_kept_and_no_more(tmp_path: Path) -> None:
    place = tmp_path / "cache" / "linebook"
    for number in range(20):
        store = open_store(place, f"print-{number:02}")
        assert store is not None
        store.write_list("state", b"list", [store.write(b"part")])
        os.utime(place / f"print-{number:02}", ns=(number, number))
    assert sorted(path.name for path in place.iterdir()) == [f"print-{number:02}" for number in range(8, 20)]


def test_a_place_that_cannot_be_made_keeps_nothing(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"")
    assert open_store(tmp_path / "file" / "linebook", "one") is None


def test_what_a_killed_run_left_is_taken_away(store: SheetStore, tmp_path: Path) -> None:
    gone = subprocess.Popen([sys.executable, "-c", "pass"])
    gone.wait()
    folder = tmp_path / "cache" / "linebook" / "one"
    (folder / f"list.{gone.pid}.part").write_bytes(b"half")
    (folder / f"list.{os.getppid()}.part").write_bytes(b"being written")
    store.write_list("state", b"list", [])
    assert [path.name for path in files(tmp_path)] == ["list", f"list.{os.getppid()}.part"]


@pytest.mark.skipif(not hasattr(os, "fork"), reason="no copies of a process here")
def test_runs_at_once_never_see_half_a_part(store: SheetStore) -> None:
    contents = [bytes([number]) * 20_000 for number in range(4)]
    children = []
    for own in contents:
        child = os.fork()
        if child == 0:
            code = 1
            try:
                for _ in range(200):
                    store.write_list("state", own, [store.write(own)])
                    found = store.read_list("state")
                    assert found is None or found in contents
                    assert store.read(sha256(own).hexdigest()) in (None, own)
                code = 0
            finally:
                os._exit(code)
        children.append(child)
    assert [os.waitpid(child, 0)[1] for child in children] == [0] * len(contents)
    assert store.read_list("state") in contents
