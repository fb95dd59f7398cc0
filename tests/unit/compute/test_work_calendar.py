"""When somebody is in the building where the hours go over midnight: of an evening house, and of a breakfast house."""

from dataclasses import replace
from datetime import date, datetime, time, timedelta

import pytest
from plan_factory import small_house, week

from linebook.compute.slots import SLOT
from linebook.compute.work_calendar import WorkCalendar
from linebook.model.house import House

MONDAY = date(2027, 3, 1)
EVENING = (time(17, 30), time(16, 0), time(2, 0))
BREAKFAST = (time(6, 30), time(22, 0), time(14, 0))
SHUT = (date(2027, 3, 4),)


def house_of(doors: time, opens: time, closes: time, **more: object) -> House:
    plain = week("tue", "wed", "thu", "fri", doors=doors, closed=SHUT)
    return small_house([], {}, service=replace(plain, staffed_from=opens, staffed_to=closes, **more))


def staffed(house: House) -> list[tuple[str, str]]:
    """Return the hours of the week of that Monday, from and to, by weekday and clock."""
    calendar = WorkCalendar(house, MONDAY, 7)
    found, last = [], False
    for at in range(calendar.width + 1):
        now = bool(calendar.staffed >> at & 1)
        if now is not last:
            found.append(f"{datetime.combine(MONDAY, time(0)) + timedelta(minutes=at * SLOT):%a %H:%M}")
        last = now
    return list(zip(found[::2], found[1::2], strict=True))


def test_an_evening_ends_after_midnight() -> None:
    assert staffed(house_of(*EVENING)) == [
        ("Tue 16:00", "Wed 02:00"),
        ("Wed 16:00", "Thu 02:00"),
        ("Fri 16:00", "Sat 02:00"),
    ]


def test_the_night_before_a_breakfast_is_its_own_and_a_closed_day_has_none() -> None:
    assert staffed(house_of(*BREAKFAST)) == [
        ("Mon 22:00", "Tue 14:00"),
        ("Tue 22:00", "Wed 14:00"),
        ("Thu 22:00", "Fri 14:00"),
    ]


def test_a_day_of_preparing_begins_when_it_says() -> None:
    assert staffed(house_of(*BREAKFAST, prep={"sat": (time(22, 0), time(2, 0))}))[-1] == ("Sat 22:00", "Sun 02:00")


@pytest.mark.parametrize(("closes", "first"), [(time(0, 0), "Tue 06:00"), (time(23, 0), "Tue 06:00")])
def test_hours_that_end_at_midnight_are_of_their_day(closes: time, first: str) -> None:
    assert staffed(house_of(time(6, 30), time(6, 0), closes))[0][0] == first


def test_a_closed_night_is_where_it_would_be_worked() -> None:
    calendar = WorkCalendar(house_of(*BREAKFAST), MONDAY, 7)
    shut = [at for at in range(calendar.width) if calendar.shut >> at & 1]
    assert (f"{calendar.when(shut[0]):%a %H:%M}", f"{calendar.when(shut[-1] + 1):%a %H:%M}") == (
        "Wed 22:00",
        "Thu 14:00",
    )
