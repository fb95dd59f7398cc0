"""What a finished PDF says, sheet by sheet, without its white space: as a reader that knows nothing of linebook finds it."""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from pathlib import Path

from click.testing import CliRunner, Result
from pypdf import PdfReader

from linebook.cli.main import command

# What the font has no letter of its own for and is written with the letter that looks the same.
ALIKE = str.maketrans({"\u2010": "-", "\u2011": "-"})


@dataclass(frozen=True)
class PrintedSheet:
    """The pages of one sheet, in order; ``titles`` is its line of the outline, after the section it stands in."""

    titles: tuple[str, ...]
    pages: tuple[str, ...]

    def says(self, text: str) -> bool:
        """Return whether a text is on the sheet whole, if need be going on at the top of the next page."""
        sought = squeezed(text)
        if any(sought in page for page in self.pages):
            return True
        for page, after in zip(self.pages, self.pages[1:], strict=False):
            # A few letters are found by chance on any page.
            cuts = [cut for cut in range(8, len(sought) - 8) if sought[:cut] in page and sought[cut:] in after]
            if cuts:
                return True
        return False


def linebook(*arguments: str | Path) -> Result:
    """Run the command line here; an exception that is not an exit fails the test."""
    return CliRunner().invoke(command, [str(one) for one in arguments], prog_name="linebook", catch_exceptions=False)


def squeezed(text: str) -> str:
    """Return a text composed and without any white space."""
    return "".join(unicodedata.normalize("NFC", text).translate(ALIKE).split())


def pages_of(path: Path) -> tuple[str, ...]:
    """Return what each page of a PDF says."""
    return tuple(squeezed(page.extract_text()) for page in PdfReader(path).pages)


def text_of(path: Path) -> str:
    """Return all that a PDF says."""
    return "".join(pages_of(path))


def sheets_of(path: Path) -> tuple[PrintedSheet, ...]:
    """Return the sheets of a PDF by its outline."""
    reader = PdfReader(path)
    pages = pages_of(path)
    starts: list[tuple[int, tuple[str, ...]]] = []

    def walk(entries: list, above: tuple[str, ...]) -> None:
        for at, entry in enumerate(entries):
            if isinstance(entry, list):
                continue
            inner = entries[at + 1] if at + 1 < len(entries) and isinstance(entries[at + 1], list) else None
            titles = (*above, str(entry.title))
            if inner is None:
                starts.append((reader.get_destination_page_number(entry), titles))
            else:
                walk(inner, titles)

    walk(reader.outline, ())
    ends = [start for start, _ in starts[1:]] + [len(pages)]
    return tuple(PrintedSheet(titles, pages[start:end]) for (start, titles), end in zip(starts, ends, strict=True))
