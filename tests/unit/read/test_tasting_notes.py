"""A tasting note goes into a file that a chef wrote by hand: only the note is new, whatever the file looks like.

What a file says is read here by another YAML reader, PyYAML's own, from the bytes.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path, PurePosixPath
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from linebook.read.tasting_log import Note, named_cards, with_note
from linebook.source.faults import Outcome

CARD = PurePosixPath("dishes/leeks.md")
MARK = b"\xef\xbb\xbf"


def put(root: Path, content: bytes, note: Note) -> Outcome[bytes]:
    (root / "dishes").mkdir(parents=True, exist_ok=True)
    (root / CARD).write_bytes(content)
    return with_note(content, root, CARD, "house", note)


def fields(content: bytes) -> dict[str, Any]:
    """Return the fields of a card, every value as text, as PyYAML reads them."""
    text = content.decode("utf-8-sig") + "\n"
    _, front, _ = text.replace("\r\n", "\n").split("---\n", 2)
    loaded: dict[str, Any] = yaml.load(front, Loader=yaml.BaseLoader) or {}
    return loaded


def is_less(before: bytes, after: bytes) -> bool:
    """Return whether ``before`` is ``after`` with some bytes left out."""
    rest = iter(after)
    return all(byte in rest for byte in before)


NAMES = st.sampled_from(
    ["name: Leeks", "line: hearth # the hot one", 'menu_text: "a: b # c"', "cutlery: [fork,\n  knife]"]
)
TEXTS = st.text(
    st.characters(whitelist_categories=("Lu", "Ll", "Nd", "Po", "Ps", "Pe", "Sm", "Zs"), max_codepoint=0x2FF),
    max_size=40,
).map(lambda text: " ".join(text.split()))
REMARKS = st.sampled_from(["", "", " # mind the salt", "  # - {date: 2027-01-01, tasted: not this}"])
DAYS = st.dates(date(2026, 1, 1), date(2028, 12, 31))


@st.composite
def logs(draw: st.DrawFn) -> str:
    """Return a log as a chef may have typed it: in dashes, in brackets, over lines, empty, or not there."""
    form = draw(st.sampled_from(["none", "colon", "brackets", "braces", "over lines", "dashes", "fields", "deep"]))
    days = draw(st.lists(DAYS, min_size=0 if form in ("none", "colon", "brackets") else 1, max_size=4))
    if draw(st.booleans()):
        days.sort()
    notes = [f"{{date: {day}, tasted: word{at}}}" for at, day in enumerate(days)]
    remarks = [draw(REMARKS) for _ in range(len(days) + 1)]
    if form == "none":
        return ""
    if form == "colon":
        return f"tastings:{remarks[0]}\n"
    if form == "brackets":
        return f"tastings: [{', '.join(notes)}{draw(st.sampled_from(['', ' ', ',' if notes else '']))}]{remarks[0]}\n"
    if form in ("braces", "over lines"):
        lines = [f"  {note}," for note in notes]
        if draw(st.booleans()):
            lines[-1] = lines[-1][:-1]
        gap = "\n" if form == "over lines" else " "
        pairs = zip(lines, remarks, strict=False)
        listed = "".join(f"{line}{remark}\n" for line, remark in pairs) if gap == "\n" else " ".join(lines) + "\n"
        return f"tastings: [{remarks[-1] if gap != ' ' else ''}\n{listed}  ]\n"
    indent = draw(st.sampled_from(["", "  ", "    "]))
    written = [f"tastings:{remarks[-1]}\n"]
    for at, (day, remark) in enumerate(zip(days, remarks, strict=False)):
        if form == "dashes":
            written.append(f"{indent}- {notes[at]}{remark}\n")
        elif form == "fields":
            written.append(f"{indent}- date: {day}{remark}\n{indent}  tasted: word{at}\n")
        else:
            written.append(f"{indent}-\n{indent}    tasted: >-\n{indent}      word{at}\n\n{indent}    date: {day}\n")
        if draw(st.booleans()) and draw(st.booleans()):
            written.append(draw(st.sampled_from([f"{indent}  # under it\n", "\n", "# at the edge\n"])))
    return "".join(written)


@st.composite
def cards(draw: st.DrawFn) -> bytes:
    parts = [one + "\n" for one in draw(st.lists(NAMES, unique=True))]
    parts.insert(draw(st.integers(0, len(parts))), draw(logs()))
    if draw(st.booleans()):
        parts.insert(draw(st.integers(0, len(parts))), "# a remark of its own\n\n")
    text = f"---\n{''.join(parts)}---{draw(st.sampled_from([chr(10), '']))}"
    if text.endswith("\n"):
        text += draw(st.sampled_from(["", "## Pick-up\n\n1. Warm.\n", "\n\n---\ntastings: []", "no line end"]))
    if draw(st.booleans()):
        text = text.replace("\n", "\r\n")
    return (MARK if draw(st.booleans()) else b"") + text.encode()


@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(content=cards(), day=DAYS, words=st.tuples(TEXTS.filter(bool), TEXTS, TEXTS))
def test_only_the_note_is_new(tmp_path: Path, content: bytes, day: date, words: tuple[str, str, str]) -> None:
    tasted, changed, by = words
    done = put(tmp_path, content, Note(day=day, tasted=tasted, changed=changed, by=by))
    assert done.value is not None, done.faults
    assert is_less(content, done.value)
    assert done.value.count(b"\r\n") in (0, done.value.count(b"\n")), "line ends are all of one kind, as before"
    before, after = fields(content), fields(done.value)
    note = {"date": day.isoformat(), "tasted": tasted, "changed": changed, "by": by}
    note = {name: text for name, text in note.items() if text}
    old, new = before.pop("tastings", None) or [], after.pop("tastings")
    assert before == after
    assert [*old, note] == new or note in new
    assert [one for one in new if one is not new[new.index(note)]] == old
    days = [one["date"] for one in old]
    if days == sorted(days):
        assert [one["date"] for one in new] == sorted([*days, day.isoformat()])


PLAIN = "---\nname: Leeks # soft\nkeeps: 4 d\n---\n## Pick-up\n"
NOTE = Note(day=date(2027, 3, 12), tasted="more acid", changed="verjuice 20 g to 28 g", by="MH")
WRITTEN = "{date: 2027-03-12, tasted: more acid, changed: verjuice 20 g to 28 g, by: MH}"


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("", f"tastings:\n  - {WRITTEN}\n"),
        ("tastings: []\n", f"tastings: [{WRITTEN}]\n"),
        ("tastings: # none yet\n", f"tastings: # none yet\n  - {WRITTEN}\n"),
        (
            "tastings:\n- {date: 2027-03-12, tasted: dull} # at noon\n# where\nplate: oval\n",
            f"tastings:\n- {{date: 2027-03-12, tasted: dull}} # at noon\n- {WRITTEN}\n# where\nplate: oval\n",
        ),
        (
            "tastings:\n  - date: 2027-03-14\n    tasted: dull\n",
            f"tastings:\n  - {WRITTEN}\n  - date: 2027-03-14\n    tasted: dull\n",
        ),
        (
            "tastings: [\n  {date: 2027-03-01, tasted: dull} # first\n]\n",
            f"tastings: [\n  {{date: 2027-03-01, tasted: dull}}, # first\n  {WRITTEN}\n]\n",
        ),
    ],
    ids=["no log", "brackets", "only a colon", "dashes at the edge", "an earlier day", "brackets over lines"],
)
def test_a_note_takes_the_form_of_its_list(tmp_path: Path, before: str, after: str) -> None:
    head, end = "---\nname: Leeks\n", "---\n## Pick-up\n"
    done = put(tmp_path, f"{head}{before}{end}".encode(), NOTE)
    assert done.value == f"{head}{after}{end}".encode()


def test_fields_in_braces_get_the_log_inside_them(tmp_path: Path) -> None:
    done = put(tmp_path, b"---\n{name: Leeks, line: hearth}\n---\n", NOTE)
    assert done.value == f"---\n{{name: Leeks, line: hearth, tastings: [{WRITTEN}]}}\n---\n".encode()


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"name: Leeks\n", "LB105"),
        (b"---\nname: Leeks\n", "LB105"),
        (b"---\nname: [Leeks\n---\n", "LB101"),
        (b"---\nname: Leeks\nname: Leek\n---\n", "LB102"),
        (b"---\nname: Leeks\ntastings: dull\n---\n", "LB108"),
        (b"---\nname: Leeks\ntastings: [{date: 12 March, tasted: dull}]\n---\n", "LB313"),
        (b"---\nname: Leeks\ntastings: ~\n---\n", "LB908"),
        (b"---\nname: \xff\n---\n", "LB111"),
        (b"---\n- Leeks\n---\n", "LB108"),
    ],
    ids=["no fields", "not closed", "not YAML", "twice", "not a list", "no date", "null", "not UTF-8", "a list"],
)
def test_a_file_that_cannot_be_read_is_left_alone_and_told(tmp_path: Path, content: bytes, code: str) -> None:
    done = put(tmp_path, content, NOTE)
    assert (done.value, [found.code for found in done.faults]) == (None, [code])


def test_a_note_that_is_too_long_is_told(tmp_path: Path) -> None:
    done = put(tmp_path, PLAIN.encode(), Note(day=NOTE.day, tasted="acid " * 500))
    assert (done.value, [found.code for found in done.faults]) == (None, ["LB110"])


def test_a_file_saved_by_another_meanwhile_is_left_alone(tmp_path: Path) -> None:
    put(tmp_path, PLAIN.encode(), NOTE)
    done = with_note(b"---\nname: Leek\n---\n", tmp_path, CARD, "house", NOTE)
    assert (done.value, [found.code for found in done.faults]) == (None, ["LB908"])


def test_a_card_is_named_by_its_id_or_its_path() -> None:
    leeks, both, other = map(PurePosixPath, ("dishes/leeks.md", "dishes/jus.md", "components/jus.md"))
    known = (leeks, both, other)
    assert named_cards("leeks", known) == named_cards("dishes/leeks.md", known) == (leeks,)
    assert named_cards("jus", known) == (both, other)
    assert named_cards("components/jus", known) == (other,)
    assert named_cards("leek", known) == ()
