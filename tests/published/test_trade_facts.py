"""Sums every kitchen does. Common practice, no source."""

from __future__ import annotations

from fractions import Fraction

from typed_house import read, typed_house

from linebook.compute.batches import compute_batch
from linebook.compute.demand import compute_night
from linebook.model.occasion import Occasion


def _batch(kitchen, covers: int):
    return compute_night(kitchen, Occasion(menu="menu", covers=covers)).batches["it"]


def test_two_pieces_a_portion():  # common practice, no source: 120 portions x 2 pieces are 240 pieces
    batch = _batch(typed_house("9 kg", {"beef": "14 kg"}, pieces=60, portion="2 pieces"), 120)
    assert batch.pieces == 240
    assert batch.factor == 4
    assert batch.ingredients[0].total == read("56 kg")


def test_a_fillet_cut_in_six():  # common practice, no source: six portions a fillet, so 45 covers take 7.5 fillets
    batch = _batch(typed_house("900 g", {"side-of-trout": "1 each"}, pieces=6, portion="1 piece"), 45)
    assert batch.pieces == 45
    assert batch.total == read("6750 g")
    assert batch.ingredients[0].total == read("7.5 each")


def test_a_tray_cut_in_pieces_is_counted_in_either():  # common practice, no source: four sheets of twelve
    kitchen = typed_house("4 sheets", {"dough": "2 kg"}, pieces=48, portion="2 pieces")
    assert _batch(kitchen, 36).total == read("6 sheets")


def test_half_as_many_covers_take_half():  # common practice, no source
    kitchen = typed_house("10 L", {"stock": "8 L"}, portion="150 ml", share="0.4")
    assert _batch(kitchen, 150).total == read("9 L")
    assert _batch(kitchen, 75).total == read("4.5 L")


def test_a_tenth_of_the_flour_as_whole_wheat():  # common practice, no source
    lines = {
        "bread-flour": "9 kg",
        "whole-wheat": "1 kg",
        "water": "68 % of bread-flour, whole-wheat",
        "salt": "2 % of bread-flour, whole-wheat",
    }
    found = {line.ingredient.item: line.total for line in compute_batch(typed_house("17 kg", lines), "it").ingredients}
    assert found["whole-wheat"].number / (found["bread-flour"].number + found["whole-wheat"].number) == Fraction(1, 10)
    assert (found["water"], found["salt"]) == (read("6800 g"), read("200 g"))


def test_whole_wheat_as_a_percentage_counts_as_flour():  # common practice, no source: salt on both flours
    lines = {
        "salt": "2 % of bread-flour, whole-wheat",
        "bread-flour": "10 kg",
        "whole-wheat": "10 % of bread-flour",
    }
    found = {line.ingredient.item: line.total for line in compute_batch(typed_house("17 kg", lines), "it").ingredients}
    assert (found["whole-wheat"], found["salt"]) == (read("1000 g"), read("220 g"))


def test_a_brine_is_of_the_water_and_a_cure_of_meat_and_water():  # common practice, no source
    lines = {"pork": "10 kg", "water": "1000 g", "salt": "1.8 % of pork, water"}
    salt = compute_batch(typed_house("10 kg", lines), "it", times=Fraction(1, 2)).ingredients[2]
    assert (salt.load, salt.rate) == (read("99 g"), 18)
