"""Reads what a cook has of an ingredient, as ``9.3 kg trout``: an amount, and an item of the card by any name."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NoReturn

import click

from linebook.cli.sizes import refuse_odd_amount
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake
from linebook.source.nearest import nearest

if TYPE_CHECKING:
    from linebook.model.amounts import Amount
    from linebook.model.component import Component
    from linebook.model.house import House


def read_had(house: House, component: Component, texts: Sequence[str]) -> dict[str, Amount]:
    """Return what there is by item of the card, in the order given. Stops with 2 where a text cannot be read so."""
    found: dict[str, Amount] = {}
    for text in texts:
        amount, item = _read(house, component, text)
        if item in found:
            raise click.UsageError(f"--have names `{item}` twice: add the two up and give it once.")
        refuse_odd_amount(amount, text, "--have")
        found[item] = amount
    return found


def _read(house: House, component: Component, text: str) -> tuple[Amount, str]:
    """Return the amount, as many words of the text as can be one, and the item that the rest names."""
    from linebook.model.quantities import parse_amount

    words = text.split()
    first: ValueMistake | None = None
    for count in range(len(words) - 1, 0, -1):
        try:
            amount = parse_amount(" ".join(words[:count]), house.file.measures)
        except ValueMistake as mistake:
            first = mistake if count == min(2, len(words) - 1) else first
            continue
        return amount, _item(house, component, " ".join(words[count:]))
    return _counted(house, component, text, words, first)


def _counted(
    house: House, component: Component, text: str, words: Sequence[str], mistake: ValueMistake | None
) -> tuple[Amount, str]:
    """Return a bare number of something that the card counts: *12 eggs*."""
    from linebook.model.amounts import Amount, Kind
    from linebook.model.numbers import parse_number

    number: Fraction | None
    try:
        number = parse_number(words[0]) if len(words) > 1 else None
    except ValueMistake:
        number = None
    item = _find(house, component, " ".join(words[1:])) if number is not None else None
    if number is not None and item is not None:
        for line in component.ingredients:
            if line.item == item and isinstance(line.amount, Amount) and line.amount.unit.kind is Kind.COUNT:
                return Amount(number=number * 1, unit=line.amount.unit), item
    if mistake is not None and mistake.code != "LB301":
        hint = f" {mistake.hints[0][:1].upper()}{mistake.hints[0][1:]}." if mistake.hints else ""
        raise click.UsageError(f"--have `{text}`: {mistake.message}.{hint}")
    reason = f" {mistake.message[:1].upper()}{mistake.message[1:]}." if mistake is not None else ""
    raise click.UsageError(f'--have `{text}` is not an amount and an ingredient: write it as "9.3 kg trout".{reason}')


def _item(house: House, component: Component, words: str) -> str:
    found = _find(house, component, words)
    return found if found is not None else _refuse(house, component, words)


def _find(house: House, component: Component, words: str) -> str | None:
    """Return the item of the card with this id, name or other name; stops where two of its items have it."""
    named = _names(house, component)
    for said in (words, words.removeprefix("of ")):
        items = named.get(_form(said), [])
        if len(items) > 1:
            raise click.UsageError(f"`{said}` names more than one ingredient of this card: {', '.join(items)}.")
        if items:
            return items[0]
    return None


def _names(house: House, component: Component) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for item in dict.fromkeys(line.item for line in component.ingredients):
        also = house.pantry[item].also_called if item in house.pantry else ()
        for name in dict.fromkeys(_form(name) for name in (item, house.name_of(item), *also)):
            found.setdefault(name, []).append(item)
    return found


def _form(words: str) -> str:
    return " ".join(words.casefold().replace("-", " ").replace("_", " ").replace(",", " ").split())


def _refuse(house: House, component: Component, words: str) -> NoReturn:
    said = words.removeprefix("of ")
    near = nearest(said, _names(house, component))
    text = f"`{said}` is not on the card of {component.name}."
    if near is not None:
        text += f" Did you mean `{_names(house, component)[near][0]}`?"
    else:
        items = ", ".join(dict.fromkeys(line.item for line in component.ingredients))
        text += f" It has: {items}."
    raise click.UsageError(text)
