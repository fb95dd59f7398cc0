"""Lead times and the order in which components are worked."""

from __future__ import annotations

from kitchen_factory import component, house, line, minutes, stage

from linebook.compute.totals import hands_on_time, lead_time, working_order


def _staged(id_: str, unattended: int, *items: str):
    work = stage("work", hands_on=minutes(10), unattended=minutes(unattended, unattended + 60), finish=minutes(5))
    return component(id_, ingredients=[line(item, "1 kg") for item in items], stages=(work,))


def test_lead_time_adds_every_stage_and_holding_is_no_part_of_it():
    part = component("rib", stages=(stage("brine", hands_on=minutes(25), unattended=minutes(960, 1200), finish=minutes(20)),
                                    stage("press", may_hold=minutes(600), hands_on=minutes(30))))  # fmt: skip
    assert lead_time(part) == minutes(1035, 1275)
    assert hands_on_time(part) == minutes(75)
    assert lead_time(component("salad")) == minutes(0)


def test_what_starts_first_comes_first_and_parts_before_the_whole():
    parts = [
        _staged("glaze", 30, "stock"),
        _staged("rib", 600, "glaze"),
        _staged("pickle", 4000),
        _staged("stock", 500),
        _staged("salad", 0),
    ]
    assert working_order(house(components=parts), ["salad", "rib", "glaze", "stock", "pickle"]) == (
        "pickle",
        "stock",
        "glaze",
        "rib",
        "salad",
    )


def test_components_without_times_still_come_after_their_parts():
    parts = [
        component("a", ingredients=[line("b", "1 kg")]),
        component("b", ingredients=[line("c", "1 kg")]),
        component("c"),
    ]
    assert working_order(house(components=parts), ["a", "b", "c"]) == ("c", "b", "a")
    # A part that is not on the list does not count.
    assert working_order(house(components=parts), ["b", "a"]) == ("b", "a")
