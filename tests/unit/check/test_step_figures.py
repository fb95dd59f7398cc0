"""The figures of a text: one form for both languages, at their exact place."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linebook.check.step_figures import figures_in


def values(text):
    return [figure.value for figure in figures_in(text)]


@pytest.mark.parametrize(
    ("english", "spanish"),
    [
        ("Hold at 65 °C for 2 h", "Mantener a 65 ºC durante 2 horas"),
        ("Cook 7 to 8 min", "Cocer de 7 a 8 minutos"),
        ("between 60 and 65 °C", "entre 60 y 65 °C"),
        ("Blend 30 seconds", "Triturar 30 segundos"),
        ("a 4-minute rest", "un reposo de 4 minutos"),
        ("every 2 days for 3 weeks", "cada 2 días durante 3 semanas"),
        ("1½ to 2 h", "de 1½ a 2 h"),
        ("1 1/2 h", "1½ h"),
        ("2.5 kg", "2,5 kg"),
        ("0.50 %", "0,5 %"),
        ("about 48 × 40 mm", "unos 48 x 40 mm"),
        ("at 17:30, 6 o'clock", "a las 17:30, a las 6"),
        ("no. 16 scoop", "cuchara n.º 16"),
        ("-18 °C", "−18 °C"),
        ("1,500 g", "1.500 g"),
        ("the 2nd tray", "la 2.ª bandeja"),
        ("3 °C", "3° C"),
        ("12 litres", "12 L"),
        ("4 h 30", "4 h 30 min"),
        ("Rest until cool", "Reposar hasta que enfríe"),
    ],
)
def test_one_figure_is_one_in_both_languages(english, spanish):
    assert sorted(values(english)) == sorted(values(spanish))


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("63 °C", "68 °C"),
        ("63 °C", "63 °F"),
        ("20 min", "20 h"),
        ("30 s", "30 min"),
        ("1.5 kg", "15 kg"),
        ("1,500 g", "1,5 g"),
        ("2 kg", "2 g"),
        ("18 °C", "-18 °C"),
        ("1/2 h", "1/3 h"),
        ("7 to 8 min", "8 min"),
        ("17:30", "17:00"),
        ("1½ h", "1 h"),
        ("2 h", "2 d"),
    ],
)
def test_another_figure_is_another(one, other):
    assert sorted(values(one)) != sorted(values(other))


def test_what_each_figure_is_and_where():
    text = "Oven at 190 °C, 5 to 8 min, then ½ of it"
    found = [(figure.value, text[figure.start : figure.end].strip()) for figure in figures_in(text)]
    assert found == [(("190", "°C"), "190 °C"), (("5", "min"), "5"), (("8", "min"), "8 min"), (("1/2", ""), "½")]


@given(st.text(alphabet="0123456789½¼.,:/ -°CFhmins akgL×x", max_size=30))
def test_any_text_has_figures_inside_it_and_in_order(text):
    found = figures_in(text)
    places = [(figure.start, figure.end) for figure in found]
    assert places == sorted(places)
    assert all(0 <= start < end <= len(text) for start, end in places)
    assert all(any(letter.isdigit() or letter in "½¼" for letter in text[start:end]) for start, end in places)


@given(st.integers(0, 3000), st.sampled_from([("°C", "ºC"), ("min", "minutos"), ("h", "horas"), ("g", "gramos")]))
def test_a_number_and_its_unit_are_read_back(number, units):
    english, spanish = units
    assert values(f"to {number} {english}") == values(f"hasta {number} {spanish}") == [(str(number), english)]
