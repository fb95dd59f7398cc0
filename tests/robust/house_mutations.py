"""Spoils whole houses in seeded ways, and says what may never come of it.

Knows the form of spec text only loosely: a mutation is a slip of a hand or a clipboard, not a move of a parser.
"""

from __future__ import annotations

import random
import re
import shutil
from collections.abc import Callable, Mapping
from datetime import date
from fractions import Fraction
from pathlib import Path
from typing import Final

from linebook.cli import faults as printer
from linebook.compute.base import base_batch
from linebook.compute.batches import compute_batch
from linebook.model.house import House
from linebook.pdf.printing import Printing
from linebook.pipeline import build_batch, build_binders, build_matrix, load_house
from linebook.source.codes import CODES
from linebook.source.faults import Fault, Severity, ValueMistake

REPOSITORY: Final = Path(__file__).parents[2]
STARTER: Final = REPOSITORY / "src/linebook/starter"
HOUSES: Final = {
    "starter": STARTER,
    **{name: REPOSITORY / "tests/houses" / name for name in ("quarry-lamp", "tansy-row", "gannet-steps")},
    "small": REPOSITORY / "tests/cases/small-house",
    "demo": REPOSITORY / "specs",
}
ISSUED: Final = date(2027, 3, 2)

Texts = dict[str, str]
Mutation = Callable[[random.Random, Texts, str], None]

_VALUE: Final = re.compile(r"(?<=[:\[,-] )(?! )[^\n,\[\]{}#]+")
_KEYED: Final = re.compile(r"([a-z_]+): ([^\n,\[\]{}#]+)")
_NUMBER: Final = re.compile(r"\d+(?:[./]\d+)?")
_UNIT: Final = re.compile(
    r"(?<=\d )(?:kg|g|mg|ml|cl|dl|L|l|oz|lb|tbsp|tsp|cups?|pieces?|each|leaves|leaf|cloves?|min|h|d|°C|%)\b|%"
)
_ID: Final = re.compile(r"\b[a-z0-9]+(?:-[a-z0-9]+)+\b")
_UNITS: Final = (
    *(["kg", "g", "mg", "ml", "L", "oz", "lb", "cup", "tbsp", "tsp", "pt", "gal", "each", "piece", "pieces", "dozen", "leaves", "cloves", "slice", "min", "h", "d", "s", "°C", "°F", "%", "mm", "cm"]),
    "fl oz", "kg/L", "g/ml", "to taste", "no. 16 scoop", "bunch", "sixth-pan", "",
)  # fmt: skip
_NUMBERS: Final = (
    *(["0", "1", "2", "00", "007", "0.1", "0.0001", "1/3", "1/0", "0/1", "7/7", "1.5", "-1", "1,5", "1,500", "1_000", "1e9", "1e400", "99", "100", "101", "1000", "999999999999"]),
    "1000000000000", "9" * 40, "0." + "0" * 40 + "1", "1" + "0" * 400, "1/" + "9" * 30, "½", "1½", "٣", "²", "nan", "inf",
)  # fmt: skip
_NOISE: Final = (
    *"{}[]:,#&*!|>%@`\"'-?<=~\\/()$^;+_.0x \n\t\r",
    *"\u00a0\u200b\u202e\u2028\ufeff\x00\x07\x1b\x85\u2019\u201c½⅓🍋é\u0301ß中א\ud7ff\uffff\U0001f468",
    "---\n", "\n---", "{{7*7}}", "{% raw %}", "<b>", "&amp;", "]]>", "<!--", ": ", " #", "{", "}", "${x}", "\r\n", "## ", "1. ", "- ", "{1/3 of ",
)  # fmt: skip
_WORDS: Final = (
    *(["no", "yes", "on", "null", "~", "true", "none", "batch", "centre", "full", "ahead", "daily", "whole", "linear", "may", "before", "after", "bin"]),
    *(["2027-02-30", "2027-13-01", "0001-01-01", "9999-12-31", "24:00", "25:61", "12:30", "00:00"]),
    "", "''", '""', "[]", "{}", "[[]]", "{a: b}", "[a, a]", "16 h to 20 h", "20 h to 16 h", "5 o'clock", "13 o'clock", "to taste",
    "x" * 300, "supercalifragilistic" * 30, "é" * 50, "🍋", "<b>bold</b>", "{{7*7}}", "a: b", "- a", "|", ">", "&a b", "*a", "!x y",
    "0 kg", "1 g", "0.001 mg", "999999999 kg", "100 %", "0 %", "99.999 %", "-5 °C", "9999 °C", "1 d", "9999999 d", "0 min", "1/7 kg",
)  # fmt: skip


def texts_of(house: Path) -> Texts:
    """Return the spec files of a house by their paths."""
    paths = [path for path in sorted(house.rglob("*")) if path.is_file() and path.suffix in (".yaml", ".md")]
    return {path.relative_to(house).as_posix(): path.read_text("utf-8") for path in paths}


def write_house(texts: Mapping[str, str], folder: Path) -> Path:
    """Write the spec files into an emptied folder; what is no UTF-8 is written as the bytes it stands for."""
    shutil.rmtree(folder, ignore_errors=True)
    for name, text in texts.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text.encode("utf-8", "surrogateescape"))
    return folder


def spoil(house: str, seed: int) -> tuple[Texts, list[str]]:
    """Return a house with one to four slips in it, and which they are; the same for the same seed.

    Every other seed has only slips that a reader may well take for what was meant.
    """
    chance = random.Random(f"{house}/{seed}")
    texts = texts_of(HOUSES[house])
    done = []
    for _ in range(chance.choice((1, 1, 1, 2, 2, 3, 4))):
        mutation = chance.choice(MILD if seed % 2 else MUTATIONS)
        name = chance.choice(sorted(texts)) if texts else ""
        if name:
            mutation(chance, texts, name)
            done.append(f"{mutation.__name__.strip('_')} in {name}")
    return texts, done


def _between(chance: random.Random, text: str, pattern: re.Pattern[str], new: Callable[[re.Match[str]], str]) -> str:
    found = list(pattern.finditer(text))
    if not found:
        return text
    match = chance.choice(found)
    return text[: match.start()] + new(match) + text[match.end() :]


def _lines(chance: random.Random, texts: Texts, name: str, change: Callable[[list[str], int], None]) -> None:
    lines = texts[name].split("\n")
    change(lines, chance.randrange(len(lines)))
    texts[name] = "\n".join(lines)


def _delete_line(chance: random.Random, texts: Texts, name: str) -> None:
    _lines(chance, texts, name, lambda lines, at: lines.__delitem__(at))


def _double_line(chance: random.Random, texts: Texts, name: str) -> None:
    _lines(chance, texts, name, lambda lines, at: lines.insert(chance.randrange(len(lines) + 1), lines[at]))


def _swap_lines(chance: random.Random, texts: Texts, name: str) -> None:
    def swap(lines: list[str], at: int) -> None:
        other = chance.randrange(len(lines))
        lines[at], lines[other] = lines[other], lines[at]

    _lines(chance, texts, name, swap)


def _indent_line(chance: random.Random, texts: Texts, name: str) -> None:
    def indent(lines: list[str], at: int) -> None:
        lines[at] = (
            chance.choice((" ", "  ", "    ", "\t", "- ")) + lines[at] if chance.random() < 0.6 else lines[at].strip()
        )

    _lines(chance, texts, name, indent)


def _line_from_elsewhere(chance: random.Random, texts: Texts, name: str) -> None:
    other = texts[chance.choice(sorted(texts))].split("\n")
    _lines(chance, texts, name, lambda lines, at: lines.insert(at, chance.choice(other)))


def _noise(chance: random.Random, texts: Texts, name: str) -> None:
    for _ in range(chance.choice((1, 1, 2, 5))):
        text = texts[name]
        at = chance.randrange(len(text) + 1)
        texts[name] = text[:at] + chance.choice(_NOISE) + text[at + chance.choice((0, 0, 1, 1, 3)) :]


def _mild_noise(chance: random.Random, texts: Texts, name: str) -> None:
    """Put an odd but printable letter in what a cook reads."""
    odd = chance.choice(
        (
            "é",
            "½",
            "ß",
            "🍋",
            "א",
            "<b>",
            "&amp;",
            "{{7*7}}",
            "–",
            "…",
            "\u200b",
            "\u00ad",
            "µ",
            "x" * 90,
            "中",
            "  ",
            "]]>",
            "''",
        )
    )
    texts[name] = _between(chance, texts[name], re.compile(r"(?<=\w)(?= )"), lambda _: odd)


def _broken_bytes(chance: random.Random, texts: Texts, name: str) -> None:
    at = chance.randrange(len(texts[name]) + 1)
    texts[name] = (
        texts[name][:at] + bytes([chance.randrange(128, 256)]).decode("utf-8", "surrogateescape") + texts[name][at:]
    )


def _odd_number(chance: random.Random, texts: Texts, name: str) -> None:
    texts[name] = _between(chance, texts[name], _NUMBER, lambda _: chance.choice(_NUMBERS))


def _near_number(chance: random.Random, texts: Texts, name: str) -> None:
    def near(match: re.Match[str]) -> str:
        factor = chance.choice(("0.001", "0.1", "0.5", "0.99", "3", "10", "1000", "100000"))
        return (
            f"{float(Fraction(match[0]) * Fraction(factor)):.6f}".rstrip("0").rstrip(".")
            if "/0" not in match[0]
            else "1"
        )

    texts[name] = _between(chance, texts[name], _NUMBER, near)


def _other_unit(chance: random.Random, texts: Texts, name: str) -> None:
    texts[name] = _between(chance, texts[name], _UNIT, lambda _: chance.choice(_UNITS))


def _other_id(chance: random.Random, texts: Texts, name: str) -> None:
    ids = sorted({found for text in texts.values() for found in _ID.findall(text)})
    texts[name] = _between(chance, texts[name], _ID, lambda match: chance.choice(ids) if ids else match[0])


def _odd_word(chance: random.Random, texts: Texts, name: str) -> None:
    texts[name] = _between(chance, texts[name], _VALUE, lambda _: chance.choice(_WORDS))


def _value_from_elsewhere(chance: random.Random, texts: Texts, name: str) -> None:
    values = sorted({found.strip() for text in texts.values() for found in _VALUE.findall(text)})
    texts[name] = _between(chance, texts[name], _VALUE, lambda match: chance.choice(values) if values else match[0])


def _value_of_same_field(chance: random.Random, texts: Texts, name: str) -> None:
    """Put what another field of the same name says; the slip that is most often accepted."""

    def other(match: re.Match[str]) -> str:
        values = sorted({value for text in texts.values() for key, value in _KEYED.findall(text) if key == match[1]})
        return f"{match[1]}: {chance.choice(values)}"

    texts[name] = _between(chance, texts[name], _KEYED, other)


def _take_field_out(chance: random.Random, texts: Texts, name: str) -> None:
    texts[name] = _between(chance, texts[name], re.compile(r"(, )?[a-z_]+: [^\n,\[\]{}#]+"), lambda _: "")


def _field_from_elsewhere(chance: random.Random, texts: Texts, name: str) -> None:
    keyed = sorted({f"{key}: {value}" for text in texts.values() for key, value in _KEYED.findall(text)})
    if keyed:
        texts[name] = _between(chance, texts[name], _KEYED, lambda match: f"{match[0]}, {chance.choice(keyed)}")


def _cut_short(chance: random.Random, texts: Texts, name: str) -> None:
    texts[name] = texts[name][: chance.randrange(len(texts[name]) + 1)]


def _take_file_out(chance: random.Random, texts: Texts, name: str) -> None:
    del texts[name]


def _rename_file(chance: random.Random, texts: Texts, name: str) -> None:
    other = chance.choice(sorted(texts))
    folder = name.rpartition("/")[0]
    new = chance.choice(
        ("Odd Name.md", "x.yml", "a.b.md", "ümlaut.md", "-.md", other.rpartition("/")[2], "x" * 200 + ".md")
    )
    texts[f"{folder}/{new}".lstrip("/")] = texts.pop(name)


def _copy_file_over(chance: random.Random, texts: Texts, name: str) -> None:
    texts[chance.choice(sorted(texts))] = texts[name]


MILD: Final[tuple[Mutation, ...]] = (
    _near_number,
    _value_of_same_field,
    _take_field_out,
    _take_field_out,
    _mild_noise,
    _other_unit,
    _other_id,
)
MUTATIONS: Final[tuple[Mutation, ...]] = (
    _delete_line, _double_line, _swap_lines, _indent_line, _line_from_elsewhere, _noise, _broken_bytes,
    _odd_number, _odd_number, _near_number, _near_number, _near_number, _other_unit, _other_unit, _other_id, _other_id, _odd_word, _odd_word,
    _value_from_elsewhere, _value_of_same_field, _value_of_same_field, _value_of_same_field, _take_field_out, _take_field_out,
    _field_from_elsewhere, _cut_short, _take_file_out, _rename_file, _copy_file_over,
)  # fmt: skip


def try_house(folder: Path, *, draw: bool = True, sized: bool = True) -> str:
    """Read a house and, where it is accepted, draw all of it, ``sized`` with sheets for some sizes of some batches.

    Returns what came of it. Raises where a bad house has no located fault with a code, or where an accepted one does not come out whole.
    """
    loaded = load_house(folder, "kitchen")
    assert_told_well(loaded.faults)
    if loaded.value is None:
        assert printer.count_errors(loaded.faults), "refused without an error"
        return "refused"
    assert not printer.count_errors(loaded.faults), "accepted in spite of an error"
    return _draw(loaded.value, folder, sized=sized) if draw else "accepted"


def assert_told_well(faults: tuple[Fault, ...], *, located: bool = True) -> None:
    """Hold every fault to its code, its place in the file and the three forms it is printed in."""
    for fault in faults:
        assert fault.code in CODES
        assert fault.severity is CODES[fault.code].severity
        assert fault.message.strip()
        assert not fault.message.endswith("."), fault.message
        for word in ("Traceback", "NoneType", "Fraction(", "object at 0x", "Error(", "<class"):
            assert word not in fault.message, fault.message
        if fault.span is None:
            assert not located, f"{fault.code} has no place: {fault.message}"
        else:
            assert 0 <= fault.span.start <= fault.span.end <= len(fault.span.source.text), fault.message
            assert fault.span.line >= 1
            assert fault.span.column >= 1
        for form in (printer._short, printer._human):
            assert fault.message in form(fault)
        printer._as_json(fault)
    printer._summary(faults or ())


def _draw(house: House, folder: Path, *, sized: bool) -> str:
    problems: list[Fault] = []
    for menu in list(house.menus)[:2]:
        nights = tuple(dict.fromkeys(house.file.nights or (1, 100)))
        lines = [line.id for line in house.file.lines]
        paper = house.file.paper.lower()
        built = build_binders(
            house,
            menu=menu,
            nights=nights,
            lines=lines,
            printing=Printing(paper=paper),
            issued=ISSUED,
            folder=folder,
            progress=lambda _: None,
        )
        _expect(built.value, built.faults)
        problems += built.faults
        for file in built.value or ():
            assert file.content.startswith(b"%PDF")
            assert file.content.rstrip().endswith(b"%%EOF")
        alone = build_matrix(
            house, menu=menu, printing=Printing(paper="letter"), issued=ISSUED, folder=folder, names=("m.pdf", "i.pdf")
        )
        _expect(alone.value, alone.faults)
        for component in list(house.components)[: 3 * sized]:
            base = base_batch(house, component)
            for batch in (base, *_sized(house, component)):
                sheet = build_batch(
                    house,
                    batch,
                    menu=menu,
                    covers=0,
                    day=ISSUED,
                    printing=Printing(paper=paper),
                    folder=folder,
                    name="b.pdf",
                )
                _expect(sheet.value, sheet.faults)
                problems += sheet.faults
    return f"told {','.join(sorted({fault.code for fault in problems}))}" if problems else "drawn"


def _sized(house: House, component: str) -> list:
    batches = [compute_batch(house, component, times=times) for times in (Fraction(1, 7), Fraction(13))]
    for text in (Fraction(7, 3),):
        made = house.components[component].makes
        try:
            batches.append(compute_batch(house, component, makes=type(made)(number=text, unit=made.unit)))
        except ValueMistake:
            continue
    return batches


def _expect(value: object, faults: tuple[Fault, ...]) -> None:
    assert_told_well(faults, located=False)
    assert (value is None) == any(fault.severity is Severity.ERROR for fault in faults)
