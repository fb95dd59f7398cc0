"""The register of issues in a house folder: owns the form of its files, both ways. Knows no paper.

An issue is one file that is written once and never again, so that two people's issues merge by lying side by side. Its
name ends in a check of its text: an issue that was edited, cut short or merged line by line is told from a sound one.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path, PurePosixPath
from typing import Final

from linebook.model.issue import FRONT_OF_HOUSE, Issue, IssuedSheet, Register, check_of, in_order
from linebook.source.codes import fault
from linebook.source.faults import Fault, Outcome
from linebook.source.files import list_folder, read_source, show_path
from linebook.source.spans import SourceFile

FOLDER: Final = PurePosixPath("issued")
TEXTS: Final = FOLDER / "texts"
_HEAD: Final = "# One issue, as `linebook bind --issue` wrote it. Never edit it: its name checks its text.\n"
_NAME: Final = re.compile(r"\d{4}-\d\d-\d\d-[a-z0-9-]+-(?P<check>[0-9A-HJKMNP-TV-Z]{8})\.txt")
_SHEET: Final = re.compile(r"([0-9A-HJKMNP-TV-Z]{8}) +(\d{1,6}) +(\S+) +(\S+) *(.*)")
_FIRST: Final = ("menu", "name", "date", "number", "lines")
_KNOWN: Final = "known"
_NO_LINE: Final = "-"
_NO_ISSUE: Final = "-"


def issue_file(issue: Issue) -> tuple[PurePosixPath, str]:
    """Return the place in the house folder and the text of an issue's file."""
    text = _HEAD + "".join(f"{line}\n" for line in _lines(issue))
    return FOLDER / f"{issue.day.isoformat()}-{issue.menu}-{check_of(text)}.txt", text


def text_file(fingerprint: str) -> PurePosixPath:
    """Return the place in the house folder of what a sheet said."""
    return TEXTS / fingerprint[:2] / f"{fingerprint}.jsonl"


def read_register(root: Path, shown: str) -> Outcome[Register]:
    """Read every issue of the house folder ``root``, which people know as ``shown``; none where none was ever issued.

    Faults: LB904 for an issue that is not as it was written. The value is None where there is one.
    """
    issues: list[Issue] = []
    faults: list[Fault] = []
    for name in list_folder(root, FOLDER):
        if name.startswith(".") or not name.endswith(".txt"):
            continue
        found = _read_issue(root, FOLDER / name, shown)
        faults += found.faults
        if found.value is not None:
            issues.append(found.value)
    return Outcome(value=None if faults else in_order(tuple(issues)), faults=tuple(faults))


def _lines(issue: Issue) -> Iterator[str]:
    yield f"menu {issue.menu}"
    yield f"name {' '.join(issue.menu_name.split())}"
    yield f"date {issue.day.isoformat()}"
    yield f"number {issue.number}"
    yield f"lines {' '.join(line or _NO_LINE for line in issue.lines)}"
    if issue.known is not None:
        yield f"{_KNOWN} {' '.join(issue.known) or _NO_ISSUE}"
    for name, value in issue.options.items():
        yield f"{name} {value}"
    yield ""
    widest = max((len(sheet.line or _NO_LINE) for sheet in issue.sheets), default=0)
    longest = max((len(sheet.id) for sheet in issue.sheets), default=0)
    for sheet in issue.sheets:
        title = " ".join(sheet.title.split())
        yield f"{sheet.fingerprint} {sheet.pages:2} {sheet.line or _NO_LINE:{widest}} {sheet.id:{longest}} {title}"


def _read_issue(root: Path, path: PurePosixPath, shown: str) -> Outcome[Issue]:
    opened = read_source(root, path, shown)
    if opened.value is None:
        return _damaged(SourceFile(path=show_path(shown, path), text=""), path)
    source = opened.value
    text = source.text.replace("\r\n", "\n")  # as git leaves it on some systems
    named = _NAME.fullmatch(path.name)
    if named is None or named["check"] != check_of(text):
        return _damaged(source, path)
    issue = _parsed(text, named["check"])
    return Outcome(value=issue) if issue else _damaged(source, path)


def _damaged(source: SourceFile, path: PurePosixPath) -> Outcome[Issue]:
    message = f"the issue `{path.name}` is not as it was written"
    folder = PurePosixPath(source.path).parent
    hints = (
        f"put it back as it was, as with: git checkout -- {source.path}",
        f"or take it out of the folder `{folder}`: its sheets are then unknown, and all else goes on",
    )
    return Outcome(value=None, faults=(fault("LB904", message, source.whole(), hints=hints),))


def _parsed(text: str, check: str) -> Issue | None:
    """Return the issue of a text, None where it has another form: one of a later version, say."""
    head, _, body = text.removeprefix(_HEAD).partition("\n\n")
    told = dict(line.partition(" ")[::2] for line in head.splitlines())
    rows = [_SHEET.fullmatch(line) for line in body.splitlines()]
    if not set(_FIRST) <= set(told):
        return None
    try:
        return Issue(
            menu=told["menu"],
            menu_name=told["name"],
            day=date.fromisoformat(told["date"]),
            number=int(told["number"]),
            options={name: value for name, value in told.items() if name not in (*_FIRST, _KNOWN)},
            lines=tuple(map(_line, told["lines"].split())),
            sheets=tuple(_sheet(row) for row in rows if row is not None),
            known=_known(told.get(_KNOWN)),
            check=check,
        ) if all(rows) else None  # fmt: skip
    except ValueError:
        return None


def _known(told: str | None) -> tuple[str, ...] | None:
    """Return the checks of the issues that one knew of; None where it does not tell, as the first of them did not."""
    return None if told is None else tuple(check for check in told.split() if check != _NO_ISSUE)


def _sheet(row: re.Match[str]) -> IssuedSheet:
    fingerprint, pages, line, id_, title = row.groups()
    return IssuedSheet(id=id_, line=_line(line), fingerprint=fingerprint, pages=int(pages), title=title)


def _line(word: str) -> str:
    return FRONT_OF_HOUSE if word == _NO_LINE else word
