"""The fingerprint: eight characters that any change of what a sheet says changes."""

from __future__ import annotations

import base64
from dataclasses import fields, is_dataclass, replace
from hashlib import blake2b

import pytest

from linebook.markup import fingerprint as module
from linebook.markup.blocks import (
    Box,
    Cell,
    Fact,
    Facts,
    FigureRef,
    Heading,
    Mark,
    Paragraph,
    Points,
    Row,
    Rule,
    Run,
    SheetText,
    Split,
    Step,
    Steps,
    Table,
)
from linebook.markup.fingerprint import CROCKFORD, fingerprint_of

WORDS = (Run(text="a"), Mark(kind="tick", word="w"))
FULL = SheetText(
    id="x",
    kind="batch-card",
    line="hearth",
    landscape=False,
    kicker=WORDS,
    title=WORDS,
    aside=WORDS,
    blocks=(
        Heading(level=2, content=WORDS, aside=WORDS, key="k"),
        Paragraph(content=WORDS),
        Facts(facts=(Fact(term=WORDS, value=WORDS, key="k"),)),
        Table(columns=("name",), head=(Row(cells=(Cell(content=WORDS),)),), rows=(Row(cells=(Cell(content=WORDS),)),)),
        Steps(steps=(Step(number=1, content=WORDS),)),
        Points(points=(Paragraph(content=WORDS),)),
        FigureRef(name="plate", alternative="words", caption=WORDS),
        Box(blocks=(Rule(),)),
        Split(left=(Rule(),), right=(Rule(), Rule())),
    ),
)


UNSEEN = ("id", "line", "key")
"""What stands on no page: a file that is renamed has another id, and all that it is in."""


def variants(value, unseen=False):
    """Yield the value with one leaf changed, for every leaf that is seen on the page; with ``unseen`` for the others."""
    if isinstance(value, bool):
        yield from () if unseen else (not value,)
    elif isinstance(value, int):
        yield from () if unseen else (value + 1,)
    elif isinstance(value, str):
        yield from () if unseen else (value + "z",)
    elif isinstance(value, tuple):
        if not unseen:
            yield (*value, *value[:1]) if value else ("z",)
        for at, item in enumerate(value):
            for changed in variants(item, unseen):
                yield (*value[:at], changed, *value[at + 1 :])
    elif is_dataclass(value):
        for field in fields(value):
            held = getattr(value, field.name)
            if field.name in UNSEEN:
                yield from (replace(value, **{field.name: held + "z"}),) if unseen else ()
            else:
                for changed in variants(held, unseen):
                    yield replace(value, **{field.name: changed})


def test_it_is_eight_characters_that_can_be_read_aloud():
    shown = fingerprint_of(FULL)
    assert len(shown) == 8
    assert set(shown) <= set(CROCKFORD)
    assert not set(CROCKFORD) & set("ILOU")
    assert len(set(CROCKFORD)) == 32


def test_the_base_is_crockfords(monkeypatch):
    """Against the base-32 of RFC 4648 (extended hex), whose alphabet is translated to Crockford's."""
    raw = b"\x00\x44\x32\x14\xc7"

    class Digest:
        def digest(self):
            return raw

    monkeypatch.setattr(module, "blake2b", lambda *_, **__: Digest())
    hexed = base64.b32hexencode(raw).decode()
    assert fingerprint_of(FULL) == hexed.translate(str.maketrans("0123456789ABCDEFGHIJKLMNOPQRSTUV", CROCKFORD))


def test_it_is_a_blake2b_of_forty_bits(monkeypatch):
    asked = []

    def spy(raw, **options):
        asked.append((raw, options))
        return blake2b(raw, **options)

    monkeypatch.setattr(module, "blake2b", spy)
    fingerprint_of(FULL)
    assert asked[0][1] == {"digest_size": 5}
    assert b"<SheetText " in asked[0][0]


def test_every_leaf_of_every_block_counts():
    seen = {fingerprint_of(FULL)}
    count = 1
    for changed in variants(FULL):
        seen.add(fingerprint_of(changed))
        count += 1
    assert count > 140
    assert len(seen) == count


def test_no_id_and_no_key_counts():
    unseen = list(variants(FULL, unseen=True))
    assert len(unseen) > 20
    assert {fingerprint_of(changed) for changed in unseen} == {fingerprint_of(FULL)}


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ((Run(text="ab"), Run(text="c", bold=True)), (Run(text="a"), Run(text="bc", bold=True))),
        ((Run(text="1:a"),), (Run(text="1"), Run(text="a"))),
        ((Run(text=">"),), (Run(text=""), Run(text=">"))),
        ((Run(text="x", key="y"),), (Run(text="x", lang="y"),)),
    ],
)
def test_no_two_trees_share_a_spelling(first, second):
    assert fingerprint_of(replace(FULL, title=first)) != fingerprint_of(replace(FULL, title=second))


def test_a_field_added_later_at_its_default_issues_no_sheet_again():
    assert module._written(Run(text="a")) == b"<Run text=1:a>"


def test_what_is_written_field_by_field_is_written_as_any_block():
    run = Run(text="a", bold=True, italic=True, quiet=True, small=True, lang="es", key="k")
    cell = Cell(content=(run, Mark(kind="tick")), note=WORDS, scope="row", span=2)
    row = Row(cells=(cell, Cell(content=())), heading=True, key="k")
    fact = Fact(term=WORDS, value=(run,), key="k")
    paragraph = Paragraph(content=WORDS, role="note", key="k")
    blocks = [run, cell, row, fact, paragraph, Run(text=""), Cell(content=()), Row(cells=()), Paragraph(content=())]
    blocks += [one for block in blocks[:5] for one in variants(block)]
    assert len(blocks) > 60
    for block in blocks:
        as_any = list[bytes]()
        module._block_writer(type(block))(block, as_any)
        assert module._written(block) == b"".join(as_any)


def test_letters_are_written_as_they_are_in_the_whole():
    words = ("café", "½ \u00a0", "æ \u0153", "\U0001f95a", "\ud83e", "\udd5a")
    line = tuple(Run(text=one) for one in words)
    said = "".join(f"<Run text={len(one)}:{one}>" for one in words)
    whole = f"<Cell content=({len(line)} {said})>".encode("utf-8", "surrogatepass")
    assert module._written(Cell(content=line)) == whole
