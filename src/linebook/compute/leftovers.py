"""Whether what is made beyond a night's need keeps until it is wanted again: the next service of the house.

Knows the calendar of a house and how long a component keeps; it reads no clock.
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final

from linebook.compute.services import is_service_day
from linebook.model.component import Component
from linebook.model.dating import own_days
from linebook.model.house import House
from linebook.source.frozen import frozen

_A_YEAR: Final = 366


@frozen
class Kept:
    """The service after a night, and the earliest day on which it may be made to keep until then.

    ``made_from`` is None where it does not keep so long whenever it is made; ``known`` is false where no card says
    how long it keeps.
    """

    next_service: date
    made_from: date | None
    known: bool = True


def next_service(house: House, day: date) -> date | None:
    """Return the first day after this one on which the house serves, None where there is none within a year."""
    later = (day + timedelta(days=at) for at in range(1, _A_YEAR))
    return next((one for one in later if is_service_day(house, one)), None)


def keeps_until_next(house: House, component: Component, day: date) -> Kept | None:
    """Return whether a component made for the service of ``day`` keeps until the next; None where none is known.

    Day 1 of its life is the day it is made, on the day of service at the latest; what is in it counts too, by the rule
    of ``model.dating``.
    """
    following = next_service(house, day)
    if following is None:
        return None
    places = {place.id: place for place in house.file.places}
    days = own_days(component.id, {**house.components, component.id: component}, places)
    if days is None:
        return Kept(next_service=following, made_from=None, known=False)
    made_from = following - timedelta(days=days - 1)
    return Kept(next_service=following, made_from=made_from if made_from <= day else None)
