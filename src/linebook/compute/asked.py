"""A batch sized by what is asked for: an amount, a number of the spec's batch, of pieces or of portions.

Exact, and as asked: no step and no smallest batch changes it. Knows a menu for its portions; knows no night.
"""

from __future__ import annotations

from linebook.compute.batches import compute_batch
from linebook.compute.portions import portions_given, served_portions
from linebook.compute.results import PortionsGiven, Sized
from linebook.compute.steps import pieces_in
from linebook.model.amounts import Amount
from linebook.model.conversion import in_makes
from linebook.model.house import House
from linebook.model.quantities import write_amount
from linebook.model.units import times as amount_times
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake


def size_by_yield(
    house: House, component_id: str, menu: str, *, makes: Amount | None = None, times: Fraction | None = None
) -> Sized:
    """Return a batch of an amount, or of so many of the spec's, and the portions it gives on a menu.

    Raises ValueMistake LB304 where the amount cannot be turned into the unit of the spec's yield.
    """
    batch = compute_batch(house, component_id, makes=makes, times=times)
    return Sized(batch=batch, portions=portions_given(house, menu, batch))


def size_by_pieces(house: House, component_id: str, menu: str, pieces: Fraction) -> Sized:
    """Return a batch of so many pieces. Raises ValueMistake LB309 where the component is not made in pieces."""
    component = house.components[component_id]
    counted = pieces_in(component)
    if not counted:
        raise ValueMistake(
            "LB309",
            f"the card of {component.name} does not say how many pieces it makes",
            ("add `pieces:` to it, or size it by an amount with --makes",),
        )
    return size_by_yield(house, component_id, menu, times=pieces / counted)


def size_by_portions(
    house: House, component_id: str, menu: str, portions: Fraction, portion: Amount | None = None
) -> Sized:
    """Return a batch that plates so many portions: new total yield over old total yield, loss counted.

    ``portion`` is that of the menu where None. Raises ValueMistake LB304 where it cannot be turned into the unit of the
    spec's yield, and LB310 where the menu has no portion of it, or more than one.
    """
    component = house.components[component_id]
    one = portion or _usual_portion(house, component_id, menu)
    needed = amount_times(in_makes(component, one), portions / (1 - component.loss))
    batch = compute_batch(house, component_id, makes=needed)
    given = PortionsGiven(amount=one, count=int(portions))
    return Sized(batch=batch, portions=(given,))


def _usual_portion(house: House, component_id: str, menu: str) -> Amount:
    component = house.components[component_id]
    served = served_portions(house, menu, component)
    if not served:
        message = f"no dish on the menu `{house.menus[menu].name}` carries a portion of {component.name}"
        raise ValueMistake("LB310", message, ('say how large a portion is, as --portion "60 g"',))
    if len({in_makes(component, amount).number for _, _, amount in served}) > 1:
        listing = ", ".join(
            f"`{write_amount(amount)}` in {_dish_words(house, dish, size)}" for dish, size, amount in served
        )
        message = f"a portion of {component.name} is not the same in every dish: {listing}"
        raise ValueMistake("LB310", message, ('say which, as --portion "60 g"',))
    return served[0][2]


def _dish_words(house: House, dish: str, size: str) -> str:
    found = house.dishes[dish]
    return f"{found.name} ({size})" if found.sizes else found.name
