"""A failure at any step leaves the old files whole and nothing beside them."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from linebook.writing import atomic


def test_it_makes_the_folder_and_replaces(tmp_path: Path) -> None:
    target = tmp_path / "a" / "b.pdf"
    atomic.write_file(target, b"one")
    atomic.write_file(target, b"two")
    assert target.read_bytes() == b"two"
    assert [p.name for p in target.parent.iterdir()] == ["b.pdf"]


@pytest.mark.parametrize("call", ["fsync", "replace"])
@pytest.mark.parametrize("nth", [1, 2])
def test_a_failure_leaves_the_old_files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: str, nth: int) -> None:
    targets = [tmp_path / "one.pdf", tmp_path / "two.pdf"]
    for target in targets:
        target.write_bytes(b"old")
    real: Callable[..., object] = getattr(os, call)
    calls = 0

    def failing(*arguments: object) -> object:
        nonlocal calls
        calls += 1
        if calls == nth:
            raise OSError("no space left")
        return real(*arguments)

    monkeypatch.setattr(os, call, failing)
    with pytest.raises(OSError, match="no space"):
        atomic.write_files([(target, b"new") for target in targets])
    contents = [target.read_bytes() for target in targets]
    assert all(content in (b"old", b"new") for content in contents)
    if call == "fsync":
        assert contents == [b"old", b"old"]
    assert sorted(p.name for p in tmp_path.iterdir()) == ["one.pdf", "two.pdf"]


def test_an_interrupt_leaves_nothing_beside(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(_: int) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", interrupted)
    with pytest.raises(KeyboardInterrupt):
        atomic.write_file(tmp_path / "x.pdf", b"new")
    assert list(tmp_path.iterdir()) == []
