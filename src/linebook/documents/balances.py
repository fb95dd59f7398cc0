"""How a by-product stands against what a night needs of it, in words. What is made and needed is computed elsewhere."""

from __future__ import annotations

from linebook.compute.results import Balance, Standing
from linebook.documents.differences import balance_difference
from linebook.documents.measures import Measures
from linebook.documents.text import EMPTY, Text


def balance_text(balance: Balance | None, measures: Measures) -> Text:
    """Return a balance for who makes the by-product; nothing where no night is known."""
    if balance is None:
        return EMPTY
    say = measures.wording.say
    needed, difference = measures.short(balance.needed), balance_difference(balance, measures)
    if balance.standing is Standing.APART:
        said = say("balance.apart", needed=needed)
    elif balance.standing is Standing.SHORT:
        said = say("balance.short", difference=difference, needed=needed)
    elif balance.standing is Standing.COVERED:
        said = say("balance.covered", needed=needed)
    elif balance.needed.number:
        said = say("balance.spare", difference=difference)
    else:
        said = say("balance.spare.none-needed")
    return measures.wording.listed((said, _with_stock(balance, measures)))


def shortage_text(balance: Balance | None, measures: Measures) -> Text:
    """Return what is short of a by-product, for who needs it; nothing where there is enough."""
    if balance is None or balance.standing is not Standing.SHORT:
        return EMPTY
    say = measures.wording.say
    said = say("balance.short", difference=balance_difference(balance, measures), needed=measures.short(balance.needed))
    return measures.wording.listed((said, _with_stock(balance, measures)))


def cover_text(balance: Balance | None, measures: Measures) -> Text:
    """Return how much is short, or that there is enough, for the cover of a binder."""
    say = measures.wording.say
    if balance is None:
        return say("cover.short.none")
    return say(f"cover.short.{balance.standing.value}", amount=balance_difference(balance, measures))


def _with_stock(balance: Balance, measures: Measures) -> Text:
    if not balance.on_hand.number:
        return EMPTY
    return measures.wording.say("balance.with-stock", amount=measures.short(balance.on_hand))
