"""What can be had tonight, on the command line: ``--without`` and ``--on-hand``, shared by many commands.

Says on the terminal what stands in, what falls, and of which stock nobody knows what is in it.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Sequence
from datetime import date
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import click

from linebook.cli.options import IdType, find_house, refuse_word, stop_on_faults
from linebook.cli.supply_refused import refused_option
from linebook.source.frozen import frozen
from linebook.source.nearest import nearest

if TYPE_CHECKING:
    from click.shell_completion import CompletionItem

    from linebook.compute.stock_contents import Brought
    from linebook.model.house import House
    from linebook.model.supply import StockEntry
    from linebook.model.tonight import Fallen, StandIn, Tonight
    from linebook.source.faults import Fault


@frozen
class SupplyAsked:
    """What was said to be missing, and the file of what is left."""

    without: tuple[str, ...] = ()
    on_hand: Path | None = None


@frozen
class Served:
    """The house as it is tonight, and the entries of the file of what is left, checked; () without one."""

    house: House
    on_hand: tuple[StockEntry, ...] = ()


class ItemType(IdType):
    """An id that can be missing: a pantry item, a component or a by-product."""

    def __init__(self) -> None:
        super().__init__("components")

    def shell_complete(self, ctx: click.Context, param: click.Parameter, incomplete: str) -> list[CompletionItem]:
        import re

        from click.shell_completion import CompletionItem

        try:
            house, _ = find_house(ctx.params.get("house"))
            texts = [path.read_text(encoding="utf-8") for path in sorted((house / "pantry").glob("*.yaml"))]
        except (click.UsageError, OSError, UnicodeDecodeError):
            texts = []
        bought = {id_ for text in texts for id_ in re.findall(r"^([a-z0-9]+(?:-[a-z0-9]+)*):", text, re.MULTILINE)}
        found = super().shell_complete(ctx, param, incomplete)
        return [*found, *(CompletionItem(id_) for id_ in sorted(bought) if id_.startswith(incomplete))]


_WITHOUT: Final = click.option(
    "--without",
    multiple=True,
    metavar="ITEM",
    type=ItemType(),
    help="A bought item, component or by-product that cannot be had: its substitute stands in. May be repeated.",
)
_NOT_ON_HAND: Final = "what is left from before changes nothing that it prints"
_ON_HAND: Final = click.option(
    "--on-hand",
    metavar="FILE",
    type=click.Path(path_type=Path),
    help="What is left from before, from a count sheet: it is used first, and counts for the allergens.",
)


def supply_options(*, on_hand: bool = True) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """Give a command ``--without`` and ``--on-hand``, gathered into one argument ``supply``."""

    def decorate(command: Callable[..., None]) -> Callable[..., None]:
        @wraps(command)
        def gathered(*, without: tuple[str, ...] = (), on_hand: Path | None = None, **given: Any) -> None:
            command(supply=SupplyAsked(without=without, on_hand=on_hand), **given)

        given = _ON_HAND if on_hand else refused_option("--on-hand", _NOT_ON_HAND)
        return _WITHOUT(given(gathered))

    return decorate


def served_house(
    house: House, supply: SupplyAsked, *, menu: str | None, day: date, folder: Path, days: int = 1
) -> Served:
    """Return the house as it is on some days: without what is missing, and with what its stock brings.

    ``menu`` is the one served, None where several may be, as in an order; then no stock is looked into for allergens,
    and what falls is told of all that are in force on those days.
    Stops with 2 at an id that nothing has, with 1 at a fault in the file of stock, and with 1 where no dish is left.
    """
    changed = _without(house, supply.without, _menus(house, menu, day, days)) if supply.without else house
    entries = _read(house, supply.on_hand) if supply.on_hand is not None else ()
    if menu is None or not (entries or house.menus[menu].on_hand):
        return Served(house=changed, on_hand=entries)
    return Served(house=_with_stock(changed, entries, menu, day, folder), on_hand=entries)


def _menus(house: House, menu: str | None, first: date, days: int) -> tuple[str, ...]:
    """Return the menu that is served, or those in force on some days, the first first."""
    from datetime import timedelta

    from linebook.compute.services import menu_in_force

    if menu is not None:
        return (menu,)
    known = (menu_in_force(house, first + timedelta(days=at)) for at in range(days))
    return tuple(dict.fromkeys(one for one in known if one is not None))


def _without(house: House, missing: Sequence[str], menus: Sequence[str]) -> House:
    from linebook.compute.substitutes import without

    known = {**house.pantry, **house.components, **house.by_products}
    for item in missing:
        if item not in known:
            refuse_word("item", item, nearest(item, known) or _by_name(house, item), ())
    changed = without(house, missing)
    if changed.tonight is None:
        return changed
    listed = {entry.dish for menu in menus or house.menus for entry in house.menus[menu].dishes}
    off = [fallen for fallen in changed.tonight.dishes if fallen.id in listed]
    for line in _lines(changed, changed.tonight, off, listed):
        click.echo(line, err=True)
    for line in dict.fromkeys(line for menu in menus for line in _brought(changed, menu)):
        click.echo(click.style(line, fg="red", bold=True), err=True)
    if listed and len(off) == len(listed):
        from linebook.source.codes import fault

        message = f"no dish of the menu can be served without {_names(house, missing)}"
        hint = "name what can stand in, under `substitutes` of the item in the pantry or on its card"
        stop_on_faults([fault("LB903", message, None, hints=(hint,))])
        sys.exit(1)
    return changed


def _lines(house: House, tonight: Tonight, off: Sequence[Fallen], listed: set[str]) -> Iterator[str]:
    """Yield what to say of what is missing: what stands in, what is not served, what nothing here uses."""
    from linebook.compute.fallen import items_served

    before = tonight.before
    used = items_served(before, listed)
    for stand_in in tonight.stands_in:
        if stand_in.missing in used:
            yield f"Without {before.name_of(stand_in.missing)}: {_instead(house, stand_in)}"
    for item in tonight.missing:
        if item not in used:
            yield f"Without {before.name_of(item)}: nothing on the menu uses it"
    for change in tonight.changes:
        if change.part == "also_makes" and change.was in tonight.missing:
            yield f"Not to be kept: {before.name_of(change.was)} of {before.name_of(change.card)}"
    for fallen in off:
        yield f"Not served: {before.dishes[fallen.id].name} ({_why(before, fallen)})"


def _brought(house: House, menu: str) -> Iterator[str]:
    """Yield what each dish contains tonight, or may, that it usually does not."""
    from linebook.documents.tonight_notice import notice_writer
    from linebook.documents.wording import english

    writer = notice_writer(house, menu, english())
    notice = writer.for_sheet("allergen-matrix:", "") if writer else None
    yield from (member.text.plain for member in notice.brings) if notice else ()


def _instead(house: House, stand_in: StandIn) -> str:
    from linebook.documents.tonight_notice import how_text
    from linebook.documents.wording import english

    note = f" ({stand_in.note})" if stand_in.note else ""
    return f"{house.name_of(stand_in.item)} instead, {how_text(stand_in, english()).plain}{note}"


def _why(house: House, fallen: Fallen) -> str:
    """Return why a dish cannot be served: *smoked eel, in eel mousse, has nothing to stand in for it*."""
    *through, missing = [house.name_of(item) for item in fallen.path[1:]]
    inside = f", in {', in '.join(reversed(through))}" if through else ""
    return f"nothing stands in for {missing}{inside}"


def _names(house: House, items: Sequence[str]) -> str:
    names = [house.name_of(item) for item in items]
    return " and ".join((", ".join(names[:-1]), names[-1])) if len(names) > 1 else names[0]


def _by_name(house: House, word: str) -> str | None:
    """Return the id of what is called so, for a cook who typed its name."""
    names = {item.name: id_ for id_, item in house.pantry.items()}
    names |= {component.name: id_ for id_, component in house.components.items()}
    return names.get(nearest(word, names) or "")


def _read(house: House, path: Path) -> tuple[StockEntry, ...]:
    from linebook.check.stock_entries import open_on_hand

    read = open_on_hand(path, str(path), house)
    stop_on_faults(read.faults)
    return read.value or ()


def _with_stock(house: House, entries: tuple[StockEntry, ...], menu: str, day: date, folder: Path) -> House:
    """Return the house with what its stock in life brings; warns of stock that nobody knows the contents of."""
    from linebook.card_fingerprints import find_card_fingerprints
    from linebook.compute.stock_contents import brought_by, stock_in_life, with_stock
    from linebook.documents.wording import wording_in
    from linebook.model.occasion import Occasion
    from linebook.pipeline import load_house

    counted = stock_in_life(house, Occasion(menu=menu, covers=1, date=day, on_hand=entries))
    named = {
        id_
        for entry in counted
        if entry.card is not None
        for id_ in (entry.item, *(parent.id for parent, _ in house.by_products.get(entry.item, ())))
    }
    # Read anew, because a binder's cards are in the house's own languages, whatever is printed now.
    specs = load_house(folder, str(folder), ()).value if named else None
    cards = find_card_fingerprints(specs, menu, sorted(named), folder, day) if specs is not None else {}
    brought = brought_by(house, menu, counted, cards)
    stop_on_faults([_unknown(house, one) for one in brought if one.unknown])
    say = wording_in(house.file.languages).say
    return with_stock(house, brought, lambda item: say("stock.extra", item=house.name_of(item)).plain, day)


def _unknown(house: House, brought: Brought) -> Fault:
    from linebook.source.codes import fault

    entry = brought.entry
    why = f"is not of the card as it is now ({entry.card})" if entry.card else "does not say which card it is of"
    return fault(
        "LB413",
        f"nobody knows what is in the {house.name_of(entry.item)} on hand, which {why}",
        entry.at("item"),
        hints=(
            "copy its label: `contains: [...]`, or `contains: none` where it names nothing",
            "until then every dish with it is printed as not declared",
        ),
    )
