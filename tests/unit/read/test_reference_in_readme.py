"""The README's format reference is the one the declarations give."""

from __future__ import annotations

from pathlib import Path

from linebook.read.reference import format_reference

README = Path(__file__).parents[3] / "README.md"


def test_readme_has_the_reference_as_declared() -> None:
    text = README.read_text(encoding="utf-8")
    begin, end = "<!-- format reference: begin -->", "<!-- format reference: end -->"
    assert text[text.index(begin) + len(begin) : text.index(end)].strip() == format_reference().strip()
