"""What must be weighed exactly is read within a quarter of the tolerance, or the batch is refused."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kitchen_factory import amount, bought, component, house, instrument, line, percent

from linebook.compute.batches import compute_batch
from linebook.compute.printed_lines import print_line
from linebook.compute.refused import find_refused
from linebook.compute.rounding import as_shown
from linebook.model.house import Instrument, InstrumentKind
from linebook.model.units import to_base

BENCH = instrument(InstrumentKind.SCALE, "15 kg", "5 g")
FINE = instrument(InstrumentKind.SCALE, "500 g", "0.1 g")
FINEST = instrument(InstrumentKind.SCALE, "200 g", "0.01 g")


def kitchen(cure, *scales, **fields):
    salt = replace(bought("cure", weighs={"each": "5"}), weigh_exactly=True)
    made = house(
        [salt, bought("pork")], [component("it", "10 kg", [line("pork", "10 kg"), line("cure", cure)], **fields)]
    )
    return replace(made, file=replace(made.file, instruments=scales))


def refused(made, **size):
    return list(find_refused(made, compute_batch(made, "it", **size), "this much"))


@pytest.mark.parametrize(
    ("cure", "scales", "mend"),
    [
        ("7 g", (BENCH,), "`0.01 g` or less"),
        ("33.33 g", (BENCH, FINE), None),  # 33.3 g is within 0.08 g
        ("13.333 g", (BENCH, FINE), None),  # 13.3 g is 0.25 % less
        ("13.334 g", (BENCH, FINE), "`0.01 g` or less"),
        ("3.333 g", (BENCH, FINE), "`0.01 g` or less"),
        ("3.057 g", (BENCH, FINEST), None),  # 3.06 g is 0.1 % more
        ("25 g", (BENCH,), None),
        ("1 1/2 each", (BENCH,), None),
        ("25 g", (), None),  # a house that names no scale has not said what it reads
    ],
)
def test_a_load_of_a_curing_salt(cure, scales, mend):
    found = refused(kitchen(cure, *scales))
    assert [fault.code for fault in found] == ([] if mend is None else ["LB328"])
    for fault in found:
        assert "cannot be weighed exactly" in fault.message
        assert mend in fault.hints[0]
        assert "as much in one load" in fault.hints[1]


def test_a_larger_batch_that_a_hint_asks_for_can_be_weighed():
    made = kitchen("7 g", BENCH)
    (fault,) = refused(made)
    times = int(fault.hints[1].split()[2])
    assert not refused(made, times=Fraction(times))


def test_each_load_is_asked_and_not_all_of_them():
    made = kitchen("20 g", BENCH, largest_batch="5 kg")
    assert "one load of" in refused(made, times=Fraction("1.25"))[0].message  # three loads of 8.33 g


@given(
    st.sampled_from(["0.25", "0.3", "2.5"]),
    st.fractions(min_value=Fraction(1, 100), max_value=20, max_denominator=5000),
    st.lists(st.sampled_from([BENCH, FINE]), max_size=2),
)
def test_what_is_not_refused_is_within_a_quarter_of_the_tolerance_of_its_share(rate, times, scales):
    made = kitchen(percent(rate, "pork"), *scales)
    batch = compute_batch(made, "it", times=times)
    tolerance = made.file.tolerance
    pork, cure = (
        print_line(one, one.loads, made.file.instruments, tolerance, exact=one.ingredient.item == "cure")
        for one in batch.ingredients
    )
    share = to_base(pork.load.amount) * Fraction(rate) / 100
    off = abs(to_base(cure.load.amount) - share)
    if refused(made, times=times):
        assert cure.load.moved
    else:
        assert off <= share * tolerance / 4
        assert abs(to_base(cure.load.amount) - to_base(batch.ingredients[1].load)) <= to_base(cure.load.amount) / 50


def _capped(rate: str, ceiling: str, *scales: Instrument):
    """Pork with a curing salt of 6.25 % nitrite under a ceiling."""
    salt = replace(
        bought("cure", weighs={"each": "5"}), weigh_exactly=True, strength={"sodium-nitrite": Fraction("0.0625")}
    )
    made = house(
        [salt, bought("pork")], [component("it", "10 kg", [line("pork", "10 kg"), line("cure", percent(rate, "pork"))])]
    )
    ceilings = {"sodium-nitrite": Fraction(ceiling) / 1_000_000}
    return replace(made, file=replace(made.file, instruments=scales, ceilings=ceilings))


def test_what_would_come_over_its_ceiling_is_rounded_down():
    # 0.25 % of 6.25 % is 156.25 ppm; 5.024 g is nearer to 5.02 g, and 5.027 g to 5.03 g, which is 156.34 ppm
    for ceiling, shown in (("156.25", "5.02"), ("200", "5.03")):
        made = _capped("0.25", ceiling, FINEST, BENCH)
        batch = compute_batch(made, "it", makes=amount("2010.8 g"))
        cure = batch.ingredients[1]
        assert to_base(cure.load) == Fraction("5.027")
        found = print_line(
            cure, 1, (FINEST, instrument(InstrumentKind.SCALE, "15 kg", "0.1 g")), Fraction("0.01"), exact=True
        )
        assert (to_base(found.load.amount), found.load.moved) == (Fraction(shown), False)


@given(
    st.sampled_from(["0.25", "0.24", "0.2"]),
    st.fractions(min_value=Fraction(1, 100), max_value=20, max_denominator=5000),
    st.lists(st.sampled_from([BENCH, FINE, FINEST]), max_size=3),
)
def test_no_printed_cure_is_over_its_ceiling(rate, times, scales):
    made = _capped(rate, str(Fraction(rate) * 625), *scales)  # at the ceiling itself
    batch = compute_batch(made, "it", times=times)
    if list(find_refused(made, batch, "this much")):
        return
    tolerance = made.file.tolerance
    pork, cure = (
        as_shown(
            print_line(
                one, one.loads, made.file.instruments, tolerance, exact=one.ingredient.item == "cure"
            ).load.amount
        )
        for one in batch.ingredients
    )
    assert cure * 100 <= pork * Fraction(rate)
