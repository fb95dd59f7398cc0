"""Any house theme: whatever it changes within the bounds, the sheets are built; and within no bounds, nothing is raised."""

import tempfile
from datetime import date
from functools import cache
from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from linebook.house_theme import open_looks
from linebook.pdf.printing import Printing
from linebook.pdf.theme import FORMS, Fonts, Margins, Spaces, Strokes, Style, Styles, floor_of, names_of
from linebook.pdf.theme_reader import _SPACE_BOUNDS, _STROKE_BOUNDS
from linebook.pipeline import build_binders, load_house

SMALL_HOUSE = Path(__file__).parents[2] / "cases/small-house"
HOUSE = load_house(SMALL_HOUSE, "specs").value
FIRST_MENU = next(iter(HOUSE.menus))


@cache
def usual(name):
    return open_looks(HOUSE.file, Path("nowhere"), name).value.theme


def points(low, high):
    return st.floats(low, high).map(lambda value: f"{max(low, min(round(value, 2), high)):.2f} pt")


def lengths(group, usual_group, bounds, spread):
    """Some of a group's names, each near its usual length or anywhere within its bounds."""
    made = {}
    for name in names_of(group):
        low, high = bounds[name]
        at = getattr(usual_group, name.replace("-", "_"))
        made[name] = points(max(low, at / spread), min(high, at * spread)) if spread else points(low, high)
    return st.fixed_dictionaries({}, optional=made)


def style(name, usual_style, most):
    return st.fixed_dictionaries(
        {"size": points(floor_of(usual_style.name), max(usual_style.size * most, floor_of(usual_style.name)))},
        optional={
            "leading": st.sampled_from(["1.15", "1.3", "1.6"]),
            "face": st.sampled_from(["regular", "bold", "italic", "bold-italic"]),
            "before": points(0, 20),
        },
    )


def accents():
    dark = st.sampled_from([("#7a1f2b", "0.25"), ("#1b3a5c", "0.2"), ("#000000", "0")])
    pale = st.sampled_from([("#f0e0b0", "0.88"), ("#9fd0e0", "0.78")])
    one = dark.map(lambda pair: (*pair, "white")) | pale.map(lambda pair: (*pair, "black"))
    return one.map(lambda made: {"colour": f'"{made[0]}"', "grey": made[1], "over": made[2]})


@st.composite
def themes(draw, spread=1.4, most=1.25):
    base = draw(st.sampled_from(["standard", "towpath"]))
    theme = usual(base)
    styles = {name: style(name, getattr(theme.styles, name.replace("-", "_")), most) for name in names_of(Styles)}
    roles = {role: style(role, one, most) for role, one in theme.paragraphs.items()}
    groups = {
        "margins": st.fixed_dictionaries(
            {},
            optional={
                "binding": points(62.5, 80), "outer": points(66, 80), "top": points(28.5, 60),
                "bottom": points(28.5, 60), "side": points(28.5, 60),
            },
        ),
        "inks": st.fixed_dictionaries(
            {}, optional={"quiet": st.just({"colour": '"#46505a"', "grey": "0.3"}), "hairline": st.just({"grey": "0.6"})}
        ),
        "accents": st.lists(accents(), min_size=1, max_size=9),
        "line-accents": st.fixed_dictionaries({}, optional={line.id: accents() for line in HOUSE.file.lines}),
        "styles": st.fixed_dictionaries({}, optional=styles),
        "paragraphs": st.fixed_dictionaries({}, optional=roles),
        "spaces": lengths(Spaces, theme.spaces, _SPACE_BOUNDS, spread).map(without_band),
        "strokes": lengths(Strokes, theme.strokes, _STROKE_BOUNDS, spread),
        "forms": st.fixed_dictionaries({}, optional={name: st.sampled_from(words) for name, words in FORMS.items()}),
        "fonts": st.sampled_from([{"italic": "Lato-Bold.ttf", "package": "fontpkg_lato", "bold": "Lato-Black.ttf",
                                   "regular": "Lato-Regular.ttf", "bold-italic": "Lato-BlackItalic.ttf"}]),
    }  # fmt: skip
    return {"based_on": base, **draw(st.fixed_dictionaries({}, optional=groups))}


def without_band(spaces):
    """The band stays where it is: the outer margin is drawn for it."""
    return {name: value for name, value in spaces.items() if name not in ("band-inset", "band-width")}


def written(value):
    if isinstance(value, dict):
        return "{" + ", ".join(f"{name}: {written(one)}" for name, one in value.items()) + "}"
    return "[" + ", ".join(map(written, value)) + "]" if isinstance(value, list) else value


def build(theme, paper):
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        (folder / "templates").mkdir()
        text = "".join(f"{name}: {written(value)}\n" for name, value in theme.items())
        (folder / "templates/theme.yaml").write_text(text, encoding="utf-8")
        return build_binders(
            HOUSE, menu=FIRST_MENU, nights=(40,), lines=[line.id for line in HOUSE.file.lines],
            printing=Printing(paper=paper), issued=date(2027, 3, 2), folder=folder, progress=lambda said: None,
        ), text  # fmt: skip


@settings(max_examples=12, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(themes(), st.sampled_from(["a4", "letter"]))
def test_any_part_of_a_theme_may_be_changed_within_reason(theme, paper):
    built, text = build(theme, paper)
    assert built.value, (text, built.faults)


@settings(max_examples=12, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(themes(spread=0, most=4), st.sampled_from(["a4", "letter"]))
def test_a_theme_at_its_bounds_is_built_or_told_not_to_fit(theme, paper):
    built, text = build(theme, paper)
    assert built.value or {fault.code for fault in built.faults} <= {"LB316", "LB804"}, (text, built.faults)


def test_every_name_of_a_theme_is_tried():
    assert set(names_of(Spaces)) == set(_SPACE_BOUNDS)
    assert set(names_of(Strokes)) == set(_STROKE_BOUNDS)
    assert {"size", "leading", "face", "before"} <= set(names_of(Style))
    assert {"binding", "outer", "top", "bottom", "side"} == set(names_of(Margins))
    assert {"files", "package", "folder"} <= set(names_of(Fonts))
