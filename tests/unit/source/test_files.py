"""Which files of a house are read, and that nothing outside it ever is."""

from __future__ import annotations

import os
import socket
from pathlib import Path, PurePosixPath

import pytest

from linebook.source.faults import Severity
from linebook.source.files import MOST_BYTES, find_spec_files, read_source, show_path


@pytest.fixture
def house(tmp_path: Path) -> Path:
    root = tmp_path / "house"
    for folder in ("pantry", "menus", "dishes", "components"):
        (root / folder).mkdir(parents=True)
    (root / "house.yaml").write_text("name: Harrow Weir\n", encoding="utf-8")
    (root / "dishes" / "b.md").write_text("b", encoding="utf-8")
    (root / "dishes" / "a.md").write_text("a", encoding="utf-8")
    (root / "pantry" / "dry.yaml").write_text("", encoding="utf-8")
    return root


def faults_of(root: Path, relative: str) -> list[tuple[str, str]]:
    outcome = read_source(root, PurePosixPath(relative), "specs")
    assert outcome.value is None
    return [(fault.code, fault.span.source.path) for fault in outcome.faults]


def test_text_is_read_with_its_shown_path(house: Path) -> None:
    (house / "dishes" / "a.md").write_bytes("---\r\nname: Crème ½\r\n".encode())
    source = read_source(house, PurePosixPath("dishes/a.md"), "specs").value
    assert (source.path, source.text) == ("specs/dishes/a.md", "---\r\nname: Crème ½\r\n")
    assert read_source(house, PurePosixPath("dishes/a.md"), "").value.path == "dishes/a.md"


@pytest.mark.parametrize(
    ("text", "is_ordinary"), [("name: Crème ½\n", True), ("name:\tbread\n", False), ("bread\r\n", False)]
)
def test_a_text_tells_whether_its_characters_need_a_second_look(house: Path, text: str, is_ordinary: bool) -> None:
    (house / "dishes" / "a.md").write_bytes(text.encode())
    source = read_source(house, PurePosixPath("dishes/a.md"), "specs").value
    assert source is not None
    assert (source.text, source.is_ordinary) == (text, is_ordinary)


def test_a_byte_order_mark_is_left_out(house: Path) -> None:
    (house / "dishes" / "a.md").write_bytes(b"\xef\xbb\xbf---\nname: a\n---\n")
    assert read_source(house, PurePosixPath("dishes/a.md"), "").value.text.startswith("---\n")


def test_a_byte_order_mark_anywhere_else_is_refused(house: Path) -> None:
    (house / "dishes" / "a.md").write_bytes(b"\xef\xbb\xbf\xef\xbb\xbf---\n")
    assert faults_of(house, "dishes/a.md") == [("LB104", "specs/dishes/a.md")]


def test_what_is_not_utf8_is_told_at_its_place(house: Path) -> None:
    (house / "dishes" / "a.md").write_bytes(b"---\nname: Cr\xe8me\n---\n")
    (fault,) = read_source(house, PurePosixPath("dishes/a.md"), "specs").faults
    assert (fault.code, fault.span.place) == ("LB111", "specs/dishes/a.md:2:9")


def test_utf16_is_named(house: Path) -> None:
    (house / "dishes" / "a.md").write_bytes("---\nname: a\n".encode("utf-16"))
    (fault,) = read_source(house, PurePosixPath("dishes/a.md"), "").faults
    assert "UTF-16" in fault.message


def test_control_characters_are_refused_in_the_whole_file(house: Path) -> None:
    (house / "dishes" / "a.md").write_bytes(b"---\nname: a\n---\nRed \x1b[31m\n")
    (fault,) = read_source(house, PurePosixPath("dishes/a.md"), "").faults
    assert (fault.code, fault.span.line) == ("LB104", 4)


def test_size_is_bounded(house: Path) -> None:
    file = house / "dishes" / "a.md"
    file.write_bytes(b"x" * MOST_BYTES)
    assert read_source(house, PurePosixPath("dishes/a.md"), "").value is not None
    file.write_bytes(b"x" * (MOST_BYTES + 1))
    assert faults_of(house, "dishes/a.md") == [("LB110", "specs/dishes/a.md")]


@pytest.mark.parametrize("relative", ["../outside.md", "dishes/../../outside.md", "/etc/hosts"])
def test_no_path_leaves_the_house(house: Path, relative: str) -> None:
    (house.parent / "outside.md").write_text("secret", encoding="utf-8")
    assert [code for code, _ in faults_of(house, relative)] == ["LB113"]


def test_no_link_leaves_the_house(house: Path) -> None:
    (house.parent / "outside.md").write_text("secret", encoding="utf-8")
    (house / "dishes" / "link.md").symlink_to(house.parent / "outside.md")
    assert faults_of(house, "dishes/link.md") == [("LB113", "specs/dishes/link.md")]
    outside = house.parent / "other"
    outside.mkdir()
    (outside / "c.md").write_text("secret", encoding="utf-8")
    (house / "components").rmdir()
    (house / "components").symlink_to(outside)
    assert faults_of(house, "components/c.md") == [("LB113", "specs/components/c.md")]
    found = find_spec_files(house)
    assert found.value.components == ()
    assert [fault.code for fault in found.faults] == ["LB113"]


def test_a_link_inside_the_house_is_read(house: Path) -> None:
    (house / "dishes" / "link.md").symlink_to(house / "dishes" / "a.md")
    assert read_source(house, PurePosixPath("dishes/link.md"), "").value.text == "a"


def test_a_link_to_itself_is_a_fault(house: Path) -> None:
    (house / "dishes" / "loop.md").symlink_to(house / "dishes" / "loop.md")
    assert faults_of(house, "dishes/loop.md") == [("LB115", "specs/dishes/loop.md")]


def test_pipes_sockets_devices_and_folders_do_not_hang(house: Path) -> None:
    os.mkfifo(house / "dishes" / "pipe.md")
    assert faults_of(house, "dishes/pipe.md") == [("LB115", "specs/dishes/pipe.md")]
    (house / "dishes" / "folder.md").mkdir()
    assert faults_of(house, "dishes/folder.md") == [("LB115", "specs/dishes/folder.md")]
    with socket.socket(socket.AF_UNIX) as opened:
        before = Path.cwd()
        os.chdir(house / "dishes")
        try:
            opened.bind("socket.md")
        finally:
            os.chdir(before)
    assert faults_of(house, "dishes/socket.md") == [("LB115", "specs/dishes/socket.md")]


@pytest.mark.parametrize("relative", ["dishes/none.md", "dishes/nul\0l.md", "dishes/" + "x" * 5000])
def test_what_cannot_be_opened_is_a_fault(house: Path, relative: str) -> None:
    assert [code for code, _ in faults_of(house, relative)] == ["LB115"]


def test_what_may_not_be_read_is_a_fault(house: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> int:
        raise PermissionError(13, "denied")

    monkeypatch.setattr(os, "open", refuse)
    (fault,) = read_source(house, PurePosixPath("dishes/a.md"), "").faults
    assert (fault.code, fault.message) == ("LB115", "this file may not be read")


def test_spec_files_are_found_in_order_of_their_names(house: Path) -> None:
    found = find_spec_files(house)
    assert found.faults == ()
    assert found.value.house == PurePosixPath("house.yaml")
    assert [str(path) for path in found.value.dishes] == ["dishes/a.md", "dishes/b.md"]
    assert [str(path) for path in found.value.pantry] == ["pantry/dry.yaml"]
    assert found.value.menus == found.value.components == ()


@pytest.mark.parametrize(
    ("name", "hint"),
    [
        ("dishes/c.txt", "rename it if it is a spec"),
        ("pantry/c.md", "files here end in `.yaml`"),
        ("menus/photo.jpg", "files here end in `.yaml`"),
        ("other.yaml", "move it to pantry or menus"),
    ],
)
def test_a_file_that_is_not_read_is_a_warning(house: Path, name: str, hint: str) -> None:
    (house / name).write_text("", encoding="utf-8")
    (fault,) = find_spec_files(house, "specs").faults
    assert (fault.code, fault.severity, fault.span.source.path) == ("LB116", Severity.WARNING, f"specs/{name}")
    assert hint in fault.hints[0]


def test_folders_are_warned_of_where_they_hide_specs(house: Path) -> None:
    (house / "dishes" / "old").mkdir()
    (house / "component").mkdir()
    assert [(fault.code, fault.span.source.path) for fault in find_spec_files(house).faults] == [
        ("LB116", "dishes/old")
    ]
    (house / "components").rmdir()
    found = find_spec_files(house).faults
    assert [fault.span.source.path for fault in found] == ["component", "dishes/old"]
    assert found[0].hints == ("rename it to `components`",)


def test_folders_named_like_specs_are_warned_of_and_links_to_nowhere_are_files(house: Path) -> None:
    (house / "dishes" / "c.md").mkdir()
    (house / "dishes" / "d.md").symlink_to(house / "pantry")
    (house / "dishes" / "e.md").symlink_to(house / "dishes" / "e.md")
    (house / "dishes" / "f.md").symlink_to(house / "nowhere.md")
    found = find_spec_files(house, "specs")
    assert found.value is not None
    assert [path.name for path in found.value.dishes] == ["a.md", "b.md", "e.md", "f.md"]
    assert [(one.code, one.span.source.path) for one in found.faults if one.span] == [
        ("LB116", "specs/dishes/c.md"),
        ("LB116", "specs/dishes/d.md"),
    ]


def test_hidden_files_backups_and_other_folders_are_passed_over(house: Path) -> None:
    for name in (".git", "templates", "output", ".hidden"):
        (house / name).mkdir()
    for name in ("dishes/.#a.md", "dishes/a.md~", "dishes/.DS_Store", "menus/Thumbs.db", "README.md", "dishes/~$a.md"):
        (house / name).write_text("", encoding="utf-8")
    assert find_spec_files(house).faults == ()


@pytest.mark.parametrize(
    ("name", "hint"),
    [("house.yml", "rename `house.yml`"), ("House.yaml", "rename `House.yaml`"), (None, "give the folder")],
)
def test_a_missing_house_file_is_told(house: Path, name: str | None, hint: str) -> None:
    (house / "house.yaml").unlink()
    if name:
        (house / name).write_text("", encoding="utf-8")
    outcome = find_spec_files(house, "specs")
    assert [fault.code for fault in outcome.faults] == ["LB114"]
    assert hint in outcome.faults[0].hints[0]
    assert outcome.value.house is None
    assert len(outcome.value.dishes) == 2


def test_a_house_that_is_no_folder(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    for name in ("file", "none", "nul\0l"):
        outcome = find_spec_files(tmp_path / name, "x")
        assert outcome.value is None
        assert [fault.code for fault in outcome.faults] == ["LB115"]


def test_a_folder_that_is_a_file(house: Path) -> None:
    (house / "menus").rmdir()
    (house / "menus").write_text("", encoding="utf-8")
    outcome = find_spec_files(house)
    assert [fault.code for fault in outcome.faults] == ["LB115"]
    assert len(outcome.value.dishes) == 2


def test_too_many_files_are_refused(house: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("linebook.source.files.MOST_FILES", 1)
    outcome = find_spec_files(house)
    assert [fault.code for fault in outcome.faults] == ["LB110"]
    assert outcome.value.dishes == ()


def test_a_name_that_cannot_be_printed_is_shown_safely() -> None:
    assert show_path("specs", PurePosixPath("dishes/a\x1b[31m\udc80.md")) == "specs/dishes/a?[31m?.md"
    assert show_path(".", PurePosixPath("house.yaml")) == "house.yaml"


@pytest.mark.parametrize(
    ("name", "text", "mend"),
    [
        ("dishes/c.markdown", "", "rename it to `c.md`"),
        ("dishes/c.MD", "", "rename it to `c.md`"),
        ("dishes/c.txt", "---\nname: C\n", "rename it to `c.md`"),
        ("dishes/c.md.txt", "---\nname: C\n", "rename it to `c.md`"),
        ("pantry/c.yml", "", "rename it to `c.yaml`"),
        ("pantry/c.txt", "# salts\nfine-salt:\n  name: salt\n", "rename it to `c.yaml`"),
    ],
)
def test_a_spec_with_a_wrong_ending_is_a_fault(house: Path, name: str, text: str, mend: str) -> None:
    (house / name).write_text(text, encoding="utf-8")
    found = find_spec_files(house, "specs")
    (fault,) = found.faults
    assert (fault.code, fault.severity, fault.span.source.path) == ("LB119", Severity.ERROR, f"specs/{name}")
    assert mend in fault.hints[0]
    assert [str(path) for path in found.value.misnamed] == [name]
