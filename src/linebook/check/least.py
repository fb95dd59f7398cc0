"""The least of a component that is made at once: what no load of it can be less than, whatever it is split into."""

from __future__ import annotations

from typing import Final

from linebook.model.component import Component
from linebook.model.conversion import in_makes
from linebook.model.quantities import write_amount
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake
from linebook.source.frozen import frozen


@frozen
class Least:
    """``factor`` of the spec's batch; ``words`` name it and ``mend`` says how to make it less.

    ``field`` is the field of the card it comes from, None where the card knows no least: then it is nothing but what
    goes in by the load.
    """

    factor: Fraction
    words: str
    mend: str
    field: str | None = None


BY_LOAD: Final = Least(factor=Fraction(0), words="what goes in by the load", mend="let it grow with the batch")
"""What no load is without, however small it is."""


def least_made(component: Component) -> Least:
    """Return the largest of the smallest batch, one step and one piece.

    A load under the smallest batch does not come out well, and neither a tray nor a loaf is made in two halves: what
    does not fit as a whole is not mended by more loads. Anything else is.
    """
    found = [BY_LOAD]
    for field, amount, words in (
        ("smallest_batch", component.smallest_batch, "the smallest batch"),
        ("batch_step", component.batch_step, "one step"),
    ):
        if amount is not None:
            try:
                factor = in_makes(component, amount).number / component.makes.number
            except ValueMistake:
                continue  # LB304 tells it
            said = f"{words}, `{write_amount(amount)}`,"
            found.append(Least(factor=factor, words=said, mend=f"make `{field}` smaller", field=field))
    if component.pieces:
        mend = "check `pieces`"
        found.append(Least(factor=1 / component.pieces, words="one piece", mend=mend, field="pieces"))
    return max(found, key=lambda least: least.factor)


def too_large(component: Component, growing: Fraction, kept: Fraction, room: Fraction) -> Least | None:
    """Return the least that does not fit into ``room``, None where more loads mend it.

    ``growing`` is what grows with the spec's batch, ``kept`` what goes in with each load, all in one measure.
    """
    if kept > room or (growing and kept == room):
        return BY_LOAD
    least = least_made(component)
    return least if growing * least.factor + kept > room else None
