"""Every code has its page, with the same headings, and its examples are honest about the code's name."""

from importlib.resources import files

import pytest

from linebook.source.codes import CODES

HEADINGS = ["## What it checks", "## Why it matters", "## Example", "## Instead"]
PAGES = files("linebook") / "explain"


@pytest.mark.parametrize("code", sorted(CODES))
def test_page_has_its_headings(code):
    text = (PAGES / f"{code}.md").read_text(encoding="utf-8")
    assert text.splitlines()[0] == f"# {code} {CODES[code].name}"
    assert [line for line in text.splitlines() if line.startswith("## ") and line in HEADINGS] == HEADINGS
    for heading in HEADINGS:
        after = text.split(f"{heading}\n", 1)[1].split("\n## W", 1)[0]
        assert after.strip(), f"{code}: nothing under {heading}"


def test_no_page_is_without_a_code():
    names = {path.name.removesuffix(".md") for path in PAGES.iterdir() if path.name.endswith(".md")}
    assert names == set(CODES)


@pytest.mark.parametrize("code", sorted(CODES))
def test_page_is_short(code):
    text = (PAGES / f"{code}.md").read_text(encoding="utf-8")
    assert len(text.split()) < 250
