"""The file that a count sheet is typed back into: every line of it written out but for the amount and the day.

A line that is not filled in stays a remark, so that what was not counted is never taken for stock.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from linebook.documents.count_sheet import Counted
from linebook.model.amounts import Kind
from linebook.model.house import House

_ABOUT = """\
# What is left on the {line} on {day}.
# For each line that is kept: take away the # before its dash, and type the amount and the day on its label
# over the dots. Where it is not of the card whose fingerprint stands there, type that of the other card, or
# delete `card:` with it and copy the label: `contains: [wheat, egg]`, or `contains: none`.
# Then: linebook batch COMPONENT --covers N --on-hand {name}
on_hand:
"""


def count_file(
    house: House, line: str, counted: Sequence[Counted], cards: Mapping[str, str], day: date, name: str
) -> str:
    """Return the text of the file ``name`` for a line; ``cards`` are fingerprints of batch cards by component."""
    called = next(one.name for one in house.file.lines if one.id == line)
    text = _ABOUT.format(line=called, day=day.isoformat(), name=name)
    for one in counted:
        card = cards.get(one.maker.id, "")
        unit = one.unit.plural if one.unit.kind is Kind.COUNT else one.unit.symbol
        fields = [f"item: {one.item}", f"amount: ... {unit}", "made: ....-..-..", *([f"card: {card}"] if card else [])]
        text += f"# {one.made.name if one.made else one.maker.name}\n#- {{{', '.join(fields)}}}\n"
    return text
