"""What is remembered of the values last asked about."""

import pytest

from linebook.source.noted import note_look_up, noting
from linebook.source.remembered import gathered, remembered


class Counter:
    def __init__(self):
        self.asked = 0

        @remembered
        def count(house, *rest):
            self.asked += 1
            return [house, *rest, self.asked]

        self.count = count


def test_the_very_same_values_are_asked_once():
    counter, house, menu = Counter(), {"a": 1}, ["b"]
    assert counter.count(house, menu, "line") is counter.count(house, menu, "".join(("li", "ne")))
    assert counter.asked == 1


def test_equal_values_that_are_not_the_same_are_asked_for_each():
    counter, house = Counter(), {"a": 1}
    assert counter.count(house, ["b"]) is not counter.count(house, ["b"])
    assert counter.asked == 2


def test_another_house_is_asked_for_anew_and_so_is_the_first_after_it():
    counter, house, other = Counter(), {"a": 1}, {"a": 1}
    first = counter.count(house, "line")
    assert counter.count(other, "line")[0] is other
    again = counter.count(house, "line")
    assert again[0] is house
    assert again is not first


def test_a_value_that_is_gone_is_not_taken_for_another():
    counter, house = Counter(), {}
    given = [counter.count(house, [number])[1] for number in range(500)]
    assert given == [[number] for number in range(500)]


def test_what_raises_is_asked_again():
    asked = []

    @remembered
    def ask(house):
        asked.append(house)
        raise ValueError(house)

    for _ in range(2):
        with pytest.raises(ValueError, match="house"):
            ask("house")
    assert len(asked) == 2


def test_who_asks_notes_the_question_or_all_that_was_looked_at():
    def look(house, word):
        note_look_up((house["number"], word))
        return word

    house, named = {"number": 3}, look.__qualname__
    question, looked_up = (f"{__name__}.{named}", ("a",)), (3, "a")
    for remembering, noted in ((remembered, ((), (question,))), (gathered, ((looked_up,), ()))):
        ask = remembering(look)
        for _ in range(2):  # the second time it is not looked at any more, and yet depended on
            answer, seen = noting(lambda ask=ask: ask(house, "a"))
            assert (answer, tuple(seen.looked_up), seen.asked) == ("a", *noted)
