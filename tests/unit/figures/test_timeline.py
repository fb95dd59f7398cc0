"""A timeline stays inside its frame, whatever stands in it, and long names get the room they need."""

import pytest

from linebook.figures.shapes import Label, Polygon
from linebook.figures.timeline import Bar, TimelineRow, draw_timeline

DAYS = ("Mon 1", "Tue 2", "Wed 3")


def drawn(rows, services=(17.5,), shut=(1,)):
    return draw_timeline(rows, DAYS, services, shut, alternative="x")


def bars(drawing):
    return [one for one in drawing.shapes if isinstance(one, Polygon) and one.closed and one.ink.fill in (0.0, 0.85)]


@pytest.mark.parametrize(("start", "end"), [(-30.0, 5.0), (60.0, 400.0), (-10.0, 500.0), (10.0, 10.01)])
def test_bars_end_at_the_frame(start, end):
    drawing = drawn([TimelineRow(name="stock", bars=(Bar(start=start, end=end, hands=True),))])
    (bar,) = bars(drawing)
    assert min(x for x, _ in bar.points) >= 58.0
    assert max(x for x, _ in bar.points) <= 250.001
    assert max(x for x, _ in bar.points) - min(x for x, _ in bar.points) >= 0.599


@pytest.mark.parametrize("hours", [(-9.0, -1.0), (72.0, 90.0)])
def test_what_is_outside_is_not_drawn(hours):
    assert not bars(drawn([TimelineRow(name="stock", bars=(Bar(start=hours[0], end=hours[1], hands=False),))]))


def test_hands_are_drawn_over_what_works_by_itself():
    row = TimelineRow(name="x", bars=(Bar(start=1, end=2, hands=True), Bar(start=0, end=9, hands=False)))
    assert [one.ink.fill for one in bars(drawn([row]))] == [0.85, 0.0]


def test_a_long_name_has_room_and_a_longer_one_two_lines():
    long = "Smoked short rib with juniper and bay, pressed"
    longer = f"{long}, glazed over embers in its own stock and rested"
    drawing = drawn([TimelineRow(name=long, bars=()), TimelineRow(name=longer, bars=())])
    names = [one for one in drawing.shapes if isinstance(one, Label) and one.align == "end"]
    assert names[0].text == long
    assert " ".join(one.text for one in names[1:]) == longer
    assert len(names) == 3
    assert all(0 < one.at[1] < drawing.height for one in names)
    assert all(len(one.text) * 1.85 <= one.at[0] for one in names)
