"""Ordinary mistakes, made one at a time in the demo house: each gives one located report with the mend, no more.

The mistakes are data, in ``ordinary_mistakes.yaml``. Every one is made in a copy of ``specs/``, which is put right
again after it; the expected line and column are counted from the edit itself.
"""

import re
import shutil
from collections import Counter
from pathlib import Path

import pytest
import yaml

from linebook.pipeline import load_house
from linebook.read import house_folder
from linebook.source.faults import Severity

HERE = Path(__file__).parent
SPECS = HERE.parents[1] / "specs"
MARK = "▸"
PATH = re.compile(r"(?:(?:components|dishes|menus|pantry)/[^/]+|house\.yaml)/")
SLIPS = yaml.safe_load((HERE / "ordinary_mistakes.yaml").read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def house(tmp_path_factory):
    """A copy of the demo in which a sound card is read once: all files but one are the same every time."""
    root = tmp_path_factory.mktemp("demo") / "specs"
    shutil.copytree(SPECS, root)
    read, kept = house_folder._House._read_card, {}

    def read_once(reader, path, source, group):
        reading, key = reader.reading, (path, source.text)
        if key in kept and kept[key][0] == reading.measures:
            return kept[key][1]
        before = (len(reading.faults), reading.losses, len(reading.broken))
        card = read(reader, path, source, group)
        if (len(reading.faults), reading.losses, len(reading.broken)) == before:
            kept[key] = (reading.measures, card)
        return card

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(house_folder._House, "_read_card", read_once)
        yield root


@pytest.fixture
def slip(house, request):
    """Make one mistake, and put the house right again afterwards."""
    slip = request.param
    touched = [house / slip[part] for part in ("file", "rename", "to") if part in slip]
    before = {path: path.read_bytes() for path in touched if path.is_file()}
    make(house, slip)
    yield slip
    if "rename" in slip:
        (house / slip["to"]).rename(house / slip["rename"])
    for path, content in before.items():
        path.write_bytes(content)


def make(root, slip):
    path = root / slip.get("file", "")
    if "rename" in slip:
        (root / slip["rename"]).rename(root / slip["to"])
    elif "delete" in slip:
        path.unlink()
    elif "save" in slip:
        path.write_bytes(path.read_text(encoding="utf-8").encode(slip["save"]))
    else:
        path.write_text(edited(path.read_text(encoding="utf-8"), slip).replace(MARK, ""), encoding="utf-8")


def edited(text, slip):
    for edit in (slip, slip.get("and", {})):
        if edit:
            assert text.count(edit["find"]) == 1, f"{edit['find']!r} stands {text.count(edit['find'])} times"
            text = text.replace(edit["find"], edit["put"])
    return text


def place_of(root, slip):
    """Return file, line and column of the report: where ▸ stands in the edit, or in the text that ``at`` names.

    ``at`` is a text of the slip's own file, or a path and a text of that file, or a path alone: its very start.
    """
    at = slip.get("at")
    if at is None:
        text = edited((SPECS / slip["file"]).read_text(encoding="utf-8"), slip)
        assert text.count(MARK) == 1, slip["slip"]
        return (slip["file"], *line_and_column(text, text.index(MARK)))
    file, words = split_place(at, slip)
    if words in ("", MARK):
        return file, 1, 1
    text = (root / file).read_text(encoding="utf-8", errors="replace")
    plain = words.replace(MARK, "")
    assert text.count(plain) >= 1, f"{plain!r} is not in {file}"
    return (file, *line_and_column(text, text.index(plain) + words.index(MARK)))


def split_place(at, slip):
    if MARK not in at:
        return at, ""
    found = PATH.match(at)
    return (found[0].removesuffix("/"), at[found.end() :]) if found else (slip["file"], at)


def line_and_column(text, offset):
    return text.count("\n", 0, offset) + 1, offset - text.rfind("\n", 0, offset)


def shown(faults):
    return "\n".join(f"{f.span.place if f.span else '-'} {f.code} {f.message} {f.hints}" for f in faults)


def marked(expected):
    chosen = [slip for slip in SLIPS if (slip["code"] != "none") == expected]
    return [pytest.param(slip, id=slip["slip"]) for slip in chosen]


@pytest.mark.parametrize("slip", marked(True), indirect=True)
def test_one_slip_gives_one_report_at_its_place_with_its_mend(house, slip):
    outcome = load_house(house, "specs")
    assert [fault.code for fault in outcome.faults] == [slip["code"]], shown(outcome.faults)
    (fault,) = outcome.faults
    file, line, column = place_of(house, slip)
    assert fault.span is not None
    assert (fault.span.source.path, fault.span.line, fault.span.column) == (f"specs/{file}", line, column), shown(
        [fault]
    )
    assert any(slip["mend"] in hint for hint in fault.hints), shown([fault])
    assert not fault.message.endswith(".")
    assert (outcome.value is None) == (fault.severity is Severity.ERROR)


@pytest.mark.parametrize("slip", marked(False), indirect=True)
def test_what_can_only_be_read_in_one_way_is_read(house, slip):
    outcome = load_house(house, "specs")
    assert not outcome.faults, shown(outcome.faults)
    assert outcome.value is not None


def test_the_demo_itself_is_clean(house):
    outcome = load_house(house, "specs")
    assert not outcome.faults, shown(outcome.faults)


def test_each_slip_is_made_once_and_is_a_change():
    names = Counter(slip["slip"] for slip in SLIPS)
    assert [name for name, times in names.items() if times > 1] == []
    assert all(slip["find"] != slip["put"].replace(MARK, "") for slip in SLIPS if "find" in slip)
    assert len(SLIPS) >= 60
