"""Words of a method: stems that forgive plurals and accents, and places that lead back to the file."""

import pytest

from linebook.check.braces import _bare_amounts
from linebook.check.prose import contains, runs, stems
from linebook.model.body import AmountOf, Block, Fixed, Form, Words
from linebook.source.spans import SourceFile


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("shallot", "Shallots"),
        ("potato", "potatoes"),
        ("cherry", "cherries"),
        ("leaf", "leaves"),
        ("peach", "peaches"),
        ("radish", "radishes"),
        ("purée", "Puree"),
        ("crème fraîche", "creme fraiche"),
        ("baker's flour", "baker’s flour"),
        ("anchovy", "anchovies"),
        ("box", "boxes"),
    ],
)
def test_forms_of_one_word_have_one_stem(one, other):
    assert stems(one) == stems(other)


@pytest.mark.parametrize(("one", "other"), [("salt", "malt"), ("oat", "oatmeal"), ("cress", "cres"), ("gas", "ga")])
def test_words_that_differ_have_stems_that_differ(one, other):
    assert stems(one) != stems(other)


def test_a_part_of_a_name_stands_side_by_side():
    assert contains(stems("fine sea salt"), stems("sea salt"))
    assert not contains(stems("fine sea salt"), stems("fine salt"))


def block_of(text, *pieces):
    source = SourceFile(path="x.md", text=text)
    made = []
    for kind, start, end in pieces:
        span = source.span(start, end)
        if kind == "brace":
            made.append(AmountOf(item=span.text.strip("{}"), span=span))
        elif kind == "fixed":
            made.append(Fixed(text=span.text, span=span))
        else:
            made.append(Words(text=span.text, strong=kind == "strong", span=span))
    return Block(form=Form.STEP, pieces=tuple(made), span=source.span(0, len(text)))


def test_runs_end_at_amounts_and_join_over_bold():
    text = "add **500** g of {butter} butter"
    block = block_of(text, ("plain", 0, 4), ("strong", 6, 9), ("plain", 11, 17), ("brace", 17, 25), ("plain", 25, 32))
    found = list(runs(block))
    assert [run.text for run in found] == ["add 500 g of ", " butter"]
    match = next(_bare_amounts(found[0].text), None)
    assert match is not None
    assert match.group() == "500 g"
    assert found[0].span(match.start(), match.end()).text == "500"
    assert found[1].span(1, 7).text == "butter"


@pytest.mark.parametrize(
    "text",
    [
        *(
            "5 g",
            "1.5 kg",
            "1,5 kg",
            "½ tsp",
            "1 ½ cups",
            "1½ cups",
            "1/2 pint",
            "2-3 L",
            "2 to 3 l",
            "250ml",
            "2 fl oz",
        ),
        *("4 litres", "6 ounces", "2 lbs", "10 kilos", "3 tablespoons", "100 Gramm".replace("mm", "m")),
    ],
)
def test_amounts_that_would_not_scale_are_seen(text):
    match = next(_bare_amounts(f"whisk in {text} of it"), None)
    assert match is not None
    assert match.group() == text


@pytest.mark.parametrize(
    "text",
    [
        *(
            "60 °C",
            "140 F",
            "93C",
            "5 min",
            "1 h 30",
            "90 s",
            "2 cm",
            "30 mm",
            "3 pieces",
            "12 leaves",
            "5 %",
            "no. 16 scoop",
        ),
        *(
            "20 g/L",
            "18 g per kg",
            "70 g each",
            "12 g a portion",
            "stage 2 gently",
            "2 large onions",
            "4 o'clock",
            "8 legs",
        ),
    ],
)
def test_what_never_scales_is_left_alone(text):
    assert not list(_bare_amounts(f"then {text} and on"))
