"""A pair of hands on menu-change day: printed pages by what is seen on them, and a swap sheet read from its print."""

from __future__ import annotations

import re
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

import pypdfium2

ACTS = ("Exchange", "Pull", "Put in", "Leave", "Take out, keep", "Put back", "Bring forward")
_ROW = re.compile(rf"^({'|'.join(ACTS)})\b(.*?)(?=^(?:{'|'.join(ACTS)})\b|\Z)", re.MULTILINE | re.DOTALL)
_PRINT = re.compile(r"\b[0-9A-HJKMNP-TV-Z]{8}\b")
_HEAD = re.compile(r"\A.*?^Do\b[^\n]* Sheet\b[^\n]* Old\b.*?New\b[^\n]*\n(?:Nueva\n)?", re.MULTILINE | re.DOTALL)
_LEFT = re.compile(r"(\d+)\s+sheets?,\s+(\d+)\s+(?:leaf|leaves)")


class Printed(NamedTuple):
    """One printed sheet: its fingerprint, and each of its pages as it looks."""

    fingerprint: str
    pages: tuple[str, ...]


class Row(NamedTuple):
    """One row of a swap sheet: what to do, the fingerprints named, and how many sheets are left."""

    act: str
    fingerprints: tuple[str, ...]
    left: int


def printed_sheets(path: Path) -> list[Printed]:
    """Return the sheets of a PDF in order; a page belongs to the sheet whose fingerprint its label has.

    Backs left blank are passed over: the last leaf of a PDF has none, and the paper is as empty.
    """
    if not path.exists():
        return []
    document = pypdfium2.PdfDocument(path)
    found: list[Printed] = []
    for at in range(len(document)):
        fingerprint, _, number = document.get_page_label(at).partition("-")
        if number == "0":
            continue
        look = sha256(document[at].render(scale=1).to_pil().tobytes()).hexdigest()
        if found and found[-1].fingerprint == fingerprint:
            found[-1] = Printed(fingerprint, (*found[-1].pages, look))
        else:
            found.append(Printed(fingerprint, (look,)))
    return found


def swap_rows(path: Path) -> dict[str, list[Row]]:
    """Return the rows of each binder's swap sheet by the title over it; ``Swap sheet`` is that of front of house."""
    document = pypdfium2.PdfDocument(path)
    texts: dict[str, str] = {}
    for at in range(len(document)):
        text = document[at].get_textpage().get_text_range().replace("\r\n", "\n")
        if text.startswith("left blank"):
            continue
        name = re.search(r"^(Swap sheet|.+?: swap)(?: / .+?)?(?: continues.*)?$", text, re.MULTILINE)
        assert name, text[:200]
        texts[name[1]] = texts.get(name[1], "") + "\n" + _HEAD.sub("", text)
    return {
        name: [_row(*match) for match in _ROW.findall(text.partition("What changed")[0])]
        for name, text in texts.items()
    }


def _row(act: str, rest: str) -> Row:
    rest = re.split(r"^(?:No longer made|[0-9A-Z]{8}$\nprinted)", rest, flags=re.MULTILINE)[0]
    left = _LEFT.search(rest)
    whole = act == "Leave" or "the whole binder" in rest
    return Row(act, tuple(_PRINT.findall(rest)), int(left[1]) if whole and left else 0)


def follow(rows: list[Row], binder: list[Printed], pile: list[Printed]) -> list[Printed]:
    """Return the binder that results: rows are done in turn, with the new sheets taken from the top of their pile."""
    old, new, aside, made = list(binder), list(pile), {}, []
    for act, fingerprints, left in rows:
        if act == "Leave":
            made += [old.pop(0) for _ in range(left)]
        if left and act in ("Pull", "Put in"):  # the whole binder
            assert (len(old), len(new)) == ((left, 0) if act == "Pull" else (0, left))
            return new
        if act in ("Pull", "Exchange", "Take out, keep"):
            out = old.pop(0)
            assert out.fingerprint == fingerprints[0]
            if act == "Take out, keep":
                aside[out.fingerprint] = out
        if act in ("Put in", "Exchange"):
            made.append(new.pop(0))
            assert made[-1].fingerprint == fingerprints[-1]
        if act == "Bring forward":
            (at,) = [at for at, one in enumerate(old) if one.fingerprint == fingerprints[0]]
            made.append(old.pop(at))
        if act == "Put back":
            made.append(aside.pop(fingerprints[0]))
    assert (old, new, aside) == ([], [], {}), "nothing is left in the old binder, on the pile or aside"
    return made
