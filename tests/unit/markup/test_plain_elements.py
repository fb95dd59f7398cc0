"""The quick reading of a sheet held against expat's: the same tree, or the sheet is handed over; never another one."""

from __future__ import annotations

import random
import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from linebook import copies
from linebook.cli.main import command
from linebook.documents.wording import Wording
from linebook.markup import plain_elements as quick
from linebook.markup.blocks import SheetText
from linebook.markup.elements import Element, Tracer, parse_elements
from linebook.markup.inline import InlineReader
from linebook.markup.plain_elements import plain_elements
from linebook.markup.reader import _Complaints, _Reader, read_markup
from linebook.markup.unusual import NotPlain
from linebook.markup.vocabulary import KINDS, TAGS
from linebook.source.faults import Fault
from linebook.templating.templates import Templates

REPOSITORY = Path(__file__).parents[3]
DAY = ("--date", "2027-02-20")
PRINTS = (
    ("bind", *DAY, "--no-cache"),
    ("bind", *DAY, "--no-cache", "--languages", "en,es", "--line", "stove"),
    ("matrix", *DAY, "-o", "matrix.pdf"),
    ("plan", "--from", "2027-02-20", "--days", "3"),
    ("call", *DAY, "-o", "call.pdf"),
    ("lineup", *DAY, "--languages", "en,es", "-o", "lineup.pdf"),
    ("tasting", *DAY, "--languages", "en,es", "-o", "tasting.pdf"),
    ("notes", *DAY, "-o", "notes.pdf"),
    ("order", "--from", "2027-02-20", "--days", "2", "--date", "2027-02-15", "-o", "order.pdf"),
    ("count", *DAY, "-o", "count.pdf"),
    ("guest", "milk", *DAY, "-o", "guest.pdf"),
    ("screen", *DAY),
    ("void", "shallot", "--contains", "sesame", *DAY),
)
ELSEWHERE = {"tonight-notice"}
"""A kind that needs a change of the night; it is made of the same parts of templates."""

Tree = tuple[str, dict[str, str], tuple[object, ...]]


def as_tree(element: Element) -> Tree:
    return (
        element.tag,
        element.attributes,
        tuple(as_tree(child) if isinstance(child, Element) else child for child in element.children),
    )


def by_expat(text: str) -> Tree | None:
    read = parse_elements(Tracer(text, "sheet", ())).value
    return as_tree(read) if read is not None else None


def by_quick(text: str) -> Tree | None:
    try:
        return as_tree(plain_elements(text))
    except NotPlain:
        return None


def held(text: str) -> bool:
    """Hold both readings of a text against each other; return whether the quick one read it."""
    found = by_quick(text)
    if found is None:
        return False
    assert found == by_expat(text), text
    return True


def carefully(text: str) -> tuple[object, tuple[Fault, ...]]:
    """Return what is read from expat's tree alone, with its faults."""
    tracer = Tracer(text, "sheet", ())
    parsed = parse_elements(tracer)
    if parsed.value is None:
        return None, parsed.faults
    complaints = _Complaints(tracer)
    sheet = _Reader(complaints).read_sheet(parsed.value)
    return (None if complaints.faults else sheet), tuple(complaints.faults)


@pytest.fixture(scope="module")
def sheets(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[str]]:
    """All texts that the commands' sheets are in their templates' own words, from the demo's specs, by kind of sheet.

    Each sheet is built without its text for the print itself: the same as is read from the text.
    """
    texts: dict[str, list[str]] = {}
    build = Templates.sheet

    def _keep(self: Templates, name: str, view: object, wording: Wording) -> SheetText | None:
        built, value = build(self, name, view, wording), self.render(name, view, wording).value
        assert value is not None
        assert built is not None
        assert built == read_markup(value.text, name).value
        texts.setdefault(built.kind, []).append(value.text)
        return built

    folder = tmp_path_factory.mktemp("prints")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Templates, "sheet", _keep)
        patch.setattr(copies, "_can_copy", lambda: False)
        patch.chdir(folder)
        for at, words in enumerate(PRINTS):
            out = () if "-o" in words else ("-o", str(at))
            done = CliRunner().invoke(command, [words[0], "--house", str(REPOSITORY / "specs"), *words[1:], *out])
            assert done.exit_code == 0, (words, done.output)
        shutil.copytree(REPOSITORY / "specs", folder / "specs")
        for menu, day in (("late-winter", "2027-02-02"), ("early-spring", "2027-03-02")):
            words = ("bind", "--menu", menu, "--date", day, "--issue", "--no-cache", "-o", menu)
            done = CliRunner().invoke(command, [*words, "--house", str(folder / "specs")])
            assert done.exit_code == 0, done.output
    return texts


def test_every_sheet_that_is_printed_is_read_quickly_and_the_same(sheets: dict[str, list[str]]) -> None:
    assert set(KINDS) - set(sheets) <= ELSEWHERE, set(KINDS) - set(sheets)
    assert sum(map(len, sheets.values())) > 200
    for texts in sheets.values():
        for text in texts:
            assert held(text)
            assert read_markup(text, "sheet").value == carefully(text)[0]


TROUBLE = (
    "&", "&amp;", "&#38;", "&#x1F372;", "&#0;", "&nbsp;", "&lt;", "<", ">", "]]>", "]", "<![CDATA[<b>x</b>]]>", "<!-- x -->",
    "<!--", "-->", "<?x y?>", "<!DOCTYPE article>", "\x00", "\x0b", "\x1f", "\x7f", "\x85", "\r\n", "\r", "\ufeff", "\ufffe",
    "\ud800", "\U0001f372", "\u2028", "é", '"', "'", "/", "/>", "</td>", "</p>", "<p>", "<p/>", "<b>", "</b>", "<td>",
    "<td/>", '<p class="note">', "<p class='note'>", '<p class="note" class="note">', '<span class="tick"/>', "<hr/>",
    "<hr></hr>", "<hr />", "</article>", "<article>", ' data-key="a>b"', ' data-key="a&amp;b"', ' data-key=""', " data-key",
    ' data-key = "k"', ' lang="es"', "\t", "\n", "  ", "<P>", "<p-x>", "<x:p>", "</p >", "<p\n>", "< p>",
)  # fmt: skip
"""What is put in the midst of a sheet."""


def spoiled(text: str, chance: random.Random) -> str:
    """Return a sheet with a slip: something cut out, put in, doubled or changed round."""
    at, until = sorted(chance.randrange(len(text) + 1) for _ in range(2))
    edges = [found.start() for found in re.finditer("[<>]", text)]
    edge = chance.choice(edges) + chance.randrange(2)
    match chance.randrange(7):
        case 0:
            return text[:at]
        case 1:
            return text[:at] + text[at + chance.randrange(1, 12) :]
        case 2:
            return text[:edge] + chance.choice(TROUBLE) + text[edge:]
        case 3:
            return text[:at] + chance.choice(TROUBLE) + text[at:]
        case 4:
            return text[:edge] + text[at:until][:400] + text[edge:]
        case 5:
            tags: list[str] = re.findall("<[^<>]*>", text)
            return text[:edge] + chance.choice(tags) + text[edge:]
        case _:
            return re.sub(r'( [a-z-]+="[^"]*")( [a-z-]+="[^"]*")', r"\2\1", text)


def test_a_spoiled_sheet_is_never_read_as_another(sheets: dict[str, list[str]]) -> None:
    chance = random.Random(20261126)
    short = [sorted(texts, key=len)[0] for texts in sheets.values()]
    read = 0
    for _ in range(1500):
        text = spoiled(chance.choice(short), chance)
        read += held(text)
        outcome = read_markup(text, "sheet")
        assert (outcome.value, outcome.faults) == carefully(text), text
    assert read > 100, "hardly any was read quickly, so that little was held"


NAMES = (*TAGS, "td", "tr", "p", "span", "b", "x")
WORDS = st.text(alphabet="ab é\U0001f372]>&;'\"/\t\n\r=-!", max_size=6) | st.sampled_from(TROUBLE)
ATTRIBUTES = st.lists(
    st.sampled_from(
        (' class="note"', ' class="tick"', ' class="box limit"', ' data-key="k"', ' colspan="2"', ' lang="es"')
    )
    | WORDS,
    max_size=3,
).map("".join)
LEAVES = WORDS | st.builds("<{}{}/>".format, st.sampled_from(NAMES), ATTRIBUTES)
PARTS = st.recursive(
    LEAVES,
    lambda inner: st.builds(
        lambda name, attributes, parts: f"<{name}{attributes}>{''.join(parts)}</{name}>",
        st.sampled_from(NAMES),
        ATTRIBUTES,
        st.lists(inner, max_size=4),
    ),
    max_leaves=12,
)


@given(st.lists(PARTS, max_size=4))
def test_any_markup_is_read_the_same_or_handed_over(parts: list[str]) -> None:
    for text in (f'<article id="a" class="batch-card">{"".join(parts)}</article>', "".join(parts)):
        held(text)
        outcome = read_markup(text, "sheet")
        assert (outcome.value, outcome.faults) == carefully(text), text


def test_words_between_tags_that_hold_none_are_handed_over() -> None:
    assert not held('<article id="a" class="batch-card">words</article>')
    assert held('<article id="a" class="batch-card"><p>words</p> \n</article>')


def test_what_is_unusual_is_handed_over_though_expat_reads_it() -> None:
    for body in ("<p>a</p><!-- x -->", "<p >a</p >", "<![CDATA[ ]]>", "<p>a</p\n>"):
        text = f'<article id="a" class="batch-card">{body}</article>'
        assert by_expat(text) is not None
        assert not held(text)


def test_a_tag_never_closed_a_hundred_thousand_times_ends_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[str] = []
    pieces = quick._PIECES

    class _Counted:
        def finditer(self, text: str) -> Iterator[re.Match[str]]:
            for found in pieces.finditer(text):
                asked.append(found[0])
                yield found

    monkeypatch.setattr(quick, "_PIECES", _Counted())
    assert not held('<article id="a" class="batch-card">' + "<p>" * 100_000)
    assert len(asked) < 50, "each looks for its end in all of the text"


def test_every_tag_that_holds_words_is_read_with_what_is_in_it() -> None:
    inside = {"b", "i", "span"}  # only ever in one of the others
    asked = {name for name, tag in TAGS.items() if tag.text} - inside
    assert all(re.match(quick._PIECES, f"<{name}>words <b>and</b> more</{name}>")[3] == name for name in asked)  # type: ignore[index]
    assert all(not (inside & set(tag.inside)) or tag.text for tag in TAGS.values())


def test_an_element_known_from_another_sheet_says_the_same_again() -> None:
    text = '<article id="a" class="batch-card"><header><h1>A</h1></header><p>words <b>twice</b></p></article>'
    first, second = (plain_elements(text).elements()[1] for _ in range(2))
    assert first is second
    assert InlineReader(complain=lambda *_: None).read(first) is InlineReader(complain=lambda *_: None).read(second)
