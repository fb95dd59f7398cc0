"""Wording, emphasis and text: placeholders, dates, lists, and what of a chef's words is set bold."""

from __future__ import annotations

import ast
import re
from datetime import date
from fractions import Fraction

import pytest
from sample_house import REPOSITORY, degrees, minutes, sample_house_file

from linebook.documents.catalogue import Catalogue
from linebook.documents.emphasis import emphasised
from linebook.documents.english import ENGLISH
from linebook.documents.measures import Measures, duration_text, part_text, per_cent, seconds_text
from linebook.documents.text import Piece, Text, joined, strong, words
from linebook.documents.wording import Wording, english
from linebook.model.amounts import Temperature
from linebook.model.limits import Heat

SOURCE = REPOSITORY / "src" / "linebook"


def marked(text: Text) -> str:
    return "".join(f"[{p.words}]" if p.bold else p.words for p in text.first).replace("\u00a0", "~")


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("Smoke at 105 °C until the core reads 93 °C.", "Smoke at [105~°C] until the core reads [93~°C]."),
        ("Lift out after 16 to 20 h", "Lift out after [16~to~20~h]"),
        ("7 h to 9 h", "[7~h to 9~h]"),
        ("rest 1 h 30 min", "rest [1~h~30~min]"),
        ("1½ to 2 h", "[1½~to~2~h]"),
        ("at 93°C, -18 °C, 200 °F", "at [93°C], [-18~°C], [200~°F]"),
        ("−18 °C at the core", "[−18~°C] at the core"),
        ("shelf B12 h, rack x-4 min", "shelf B12 h, rack x-[4~min]"),
        ("57 °C to 21 °C within 2 h", "[57~°C to 21~°C] within [2~h]"),
        ("60 to 80 s, 90 seconds, 2 days", "[60~to~80~s], [90~seconds], [2~days]"),
        ("between 2 and 3 h", "between [2~and~3~h]"),
        ("add 2 kg and 500 ml, 6 mm", "add 2~kg and 500~ml, 6~mm"),
        ("3 spoons, 12 shells, 2 dozen, step 3", "3 spoons, 12 shells, 2 dozen, step 3"),
        ("pulled from 10 to 3 o'clock", "pulled from 10 to 3 o'clock"),
        ("no. 16 scoop at 6 o'clock", "no. 16 scoop at 6 o'clock"),
        ("by 17:00", "by 17:00"),
        ("no figures at all", "no figures at all"),
    ],
)
def test_times_and_temperatures_are_bold_and_no_value_parts_from_its_unit(typed, shown):
    assert marked(emphasised(words(typed))) == shown


def test_emphasis_keeps_every_letter_and_what_was_set_before():
    typed = Text((Piece(words="keep 4 min ", italic=True), Piece(words="at 3 °C", bold=True)))
    made = emphasised(typed)
    assert made.plain.replace("\u00a0", " ") == typed.plain
    assert [piece.italic for piece in made.first] == [True, True, True, False, False]
    assert all(piece.bold for piece in made.first[3:])


def test_a_sentence_takes_values_and_bold_but_reads_neither_in_a_value():
    wording = Wording(Catalogue(sentences={"a": "for **{who}**, {what} only"}))
    said = wording.say("a", who=words("you"), what="{who} ** 7")
    assert marked(said) == "for [you], {who} ** 7 only"


def test_an_unknown_key_or_a_missing_value_is_our_mistake():
    with pytest.raises(KeyError):
        english().say("no.such.key")
    with pytest.raises(KeyError):
        english().say("from.line")


def test_lists():
    wording = english()
    assert wording.listed([words("a"), words(""), words("b")]).plain == "a, b"
    assert wording.listed_with_and([words("a"), words("b"), words("c")]).plain == "a, b and c"
    assert wording.listed_with_and([words("a")]).plain == "a"
    assert wording.listed_with_and([]).plain == ""
    assert wording.named([words("Hake, brined"), words("Rib")]).plain == "Hake, brined; Rib"
    assert wording.named([words("Hake"), words("Rib")]).plain == "Hake, Rib"
    assert (
        wording.listed_with_and([words("Hake, brined"), words("Rib"), words("Jus")]).plain
        == "Hake, brined; Rib and Jus"
    )


@pytest.mark.parametrize("day", [date(2027, 3, 6), date(2027, 12, 31), date(2028, 2, 29)])
def test_a_day_never_parts_and_has_its_weekday(day):
    said = english().day(day).plain
    assert said == f"{day:%a} {day.day} {day:%B}".replace(" ", "\u00a0")
    assert english().full_day(day).plain == f"{day.day} {day:%B} {day.year}".replace(" ", "\u00a0")


@pytest.mark.parametrize(
    ("seconds", "shown"),
    [(15, "15 s"), (120, "2 min"), (2700, "45 min"), (7200, "2 h"), (86400, "24 h"), (604800, "7 d")],
)
def test_seconds(seconds, shown):
    assert seconds_text(seconds).plain.replace("\u00a0", " ") == shown


@pytest.mark.parametrize(
    ("part", "shown"), [("1/3", "⅓"), ("1/2", "½"), ("3/2", "1½"), ("5/16", "0.3125"), ("1/7", "1/7")]
)
def test_parts(part, shown):
    assert part_text(Fraction(part)) == shown


def test_measures_in_the_house_s_scale():
    celsius = Measures(house=sample_house_file(), wording=english())
    fahrenheit = Measures(house=sample_house_file(fahrenheit=True), wording=english())
    assert celsius.temperature(degrees(-18)).plain == "−18\u00a0°C"
    assert fahrenheit.temperature(degrees(93)).plain == "200\u00a0°F"
    assert fahrenheit.heat(Heat(celsius=63)).plain == "146\u00a0°F"
    assert fahrenheit.heat(Heat(celsius=8, least=False)).plain == "46\u00a0°F"
    assert celsius.heat(Heat(celsius=63)).plain == "63\u00a0°C"
    assert per_cent(Fraction(4, 100)).plain == "4\u00a0%"
    assert per_cent(Fraction(1, 16)).plain == "6.25\u00a0%"
    assert (
        duration_text(minutes(1465, 1825), english()).plain
        == "24\u00a0h\u00a025\u00a0min to 30\u00a0h\u00a025\u00a0min"
    )


@pytest.mark.parametrize(
    ("celsius", "at_most", "shown"),
    [
        ("3", None, "37 °F"),  # 37.4: a cold store may not be warmer
        ("-18", None, "−1 °F"),  # -0.4
        ("5", None, "41 °F"),
        ("63", None, "146 °F"),  # 145.4: a core must get there
        ("105", None, "221 °F"),
        ("500/9", None, "132 °F"),  # typed as 132 °F
        ("30", True, "86 °F"),
        ("37", True, "98 °F"),  # 98.6, to cool down to
        ("37", None, "99 °F"),
        ("37", False, "99 °F"),
    ],
)
def test_whole_degrees_fahrenheit_are_never_looser(celsius, at_most, shown):
    measures = Measures(house=sample_house_file(fahrenheit=True), wording=english())
    temperature = Temperature(celsius=Fraction(celsius))
    assert measures.temperature(temperature, at_most=at_most).plain.replace("\u00a0", " ") == shown


def test_what_was_typed_in_fahrenheit_is_no_looser_in_celsius():
    measures = Measures(house=sample_house_file(), wording=english())
    core, store = (Temperature(celsius=Fraction(number - 32) * Fraction(5, 9)) for number in (135, 38))
    assert measures.temperature(core).plain == "57.3\u00a0°C"  # 57.22
    assert measures.temperature(store).plain == "3.3\u00a0°C"  # 3.33


def test_text_in_a_row():
    assert joined([words("a"), words(""), words("b", bold=True)], "; ").plain == "a; b"
    assert not Text((Piece(words=""),))
    assert strong(words("a")).first[0].bold


def asked_for() -> tuple[set[str], set[str]]:
    """Return the strings of the code and the templates, and the beginnings of those that are put together."""
    whole: set[str] = set()
    begun: set[str] = set()
    for path in SOURCE.rglob("*.py"):
        if path.name == "english.py":
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.JoinedStr):
                parts = [part.value if isinstance(part, ast.Constant) else "\0" for part in node.values]
                begun.add(re.escape("".join(parts)).replace("\0", "[a-z0-9.-]+"))
            elif isinstance(node, ast.Constant) and isinstance(node.value, str):
                whole.add(node.value)
    for path in (REPOSITORY / "templates").glob("*.xml.j2"):
        whole |= set(re.findall(r"say\(.([a-z.-]+).", path.read_text(encoding="utf-8")))
    return whole, {pattern for pattern in begun if re.match(r"[a-z]+|\[", pattern)}


def test_every_word_of_the_catalogue_is_asked_for():
    whole, patterns = asked_for()
    joined_patterns = [re.compile(pattern) for pattern in patterns if pattern.count("[a-z0-9") < 3]
    for key in ENGLISH:
        counted = key.removesuffix(".one").removesuffix(".many")
        assert key in whole or counted in whole or any(p.fullmatch(key) for p in joined_patterns), key


def test_every_sentence_has_balanced_emphasis_and_named_places():
    for key, sentence in ENGLISH.items():
        assert sentence.count("**") % 2 == 0, key
        assert re.sub(r"\{[a-z_]+\}", "", sentence).count("{") == 0, key
        assert "-free" not in sentence, key
        assert "!" not in sentence, key
