"""The square code: segno's own codes, read by another reader from the printed page, with its white margin."""

from __future__ import annotations

import random

import pytest
from square_code_table import MASK, modules, table

from linebook.markup.fingerprint import CROCKFORD
from linebook.pdf.square_code import MODULE, MODULES, QUIET, WIDE, square_code
from linebook.pdf.square_code import modules as ours
from linebook.pdf.square_table import TABLE

FINGERPRINTS = ["00000000", "ZZZZZZZZ", "7F3A91C2", "0123ABCD"] + [
    "".join(random.Random(seed).choices(CROCKFORD, k=8)) for seed in range(200)
]


def rows(fingerprint: str) -> list[str]:
    """Return the rows of a code, without the white module that parts each from the next."""
    bits = f"{ours(fingerprint):0{WIDE * MODULES}b}"
    assert not bits[MODULES::WIDE].strip("0")
    return [bits[at : at + MODULES] for at in range(0, len(bits), WIDE)]


def test_the_table_is_what_segno_gives() -> None:
    assert tuple(int(line, 16) for line in TABLE.split()) == table(), "run tests/unit/pdf/square_code_table.py"


@pytest.mark.parametrize("fingerprint", FINGERPRINTS[:60])
def test_a_code_is_module_for_module_that_of_segno(fingerprint: str) -> None:
    assert int("".join(rows(fingerprint)), 2) == modules(fingerprint), MASK


@pytest.mark.parametrize("fingerprint", FINGERPRINTS)
def test_another_reader_reads_it(fingerprint: str) -> None:
    from PIL import Image

    zxingcpp = pytest.importorskip("zxingcpp")
    side = MODULES + 2 * QUIET
    image = Image.new("L", (side, side), 255)
    for y, row in enumerate(rows(fingerprint)):
        for x, bit in enumerate(row):
            if bit == "1":
                image.putpixel((x + QUIET, y + QUIET), 0)
    read = zxingcpp.read_barcodes(image.resize((side * 6, side * 6), Image.Resampling.NEAREST))
    assert [one.text for one in read] == [fingerprint]


def test_a_module_is_large_enough_to_be_read() -> None:
    assert MODULE / (72 / 25.4) >= 0.4


@pytest.mark.parametrize("word", ["", "7F3A91C", "7f3a91c2", "7F3A91C2 "])
def test_what_is_no_fingerprint_has_no_code(word: str) -> None:
    assert square_code(word, 0, 0) is None
