"""``linebook void``: an item turns out wrong in the middle of service; what says something else now is printed anew."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Final

import click

from linebook.cli.asked import Asked
from linebook.cli.options import (
    IdType,
    date_option,
    find_house,
    menu_option,
    refuse_word,
    stop_on_faults,
    theme_option,
    today,
)
from linebook.cli.print_options import print_options
from linebook.cli.supply_options import SupplyAsked, served_house, supply_options
from linebook.source.nearest import nearest

if TYPE_CHECKING:
    from linebook.compute.voiding import Turned
    from linebook.model.house import House
    from linebook.void_prints import Swap, VoidPrint

_SAYS: Final = ("label", "supplier", "spill", "mistake")


@click.command(short_help="Re-print what says something else when an item turns out wrong in service.")
@click.argument("items", metavar="ITEM…", nargs=-1, required=True, type=IdType("components"))
@click.option("--contains", multiple=True, metavar="SUBSTANCE", help="What it contains after all; may be repeated.")
@click.option("--may-contain", multiple=True, metavar="SUBSTANCE", help="What it may contain; may be repeated.")
@click.option("--undeclared", is_flag=True, help="Nobody knows what is in it.")
@click.option("--says", type=click.Choice(_SAYS), default="label", show_default=True, help="How that is known.")
@click.option("--house", help="The house folder.")
@menu_option
@date_option
@supply_options()
@print_options(half_sheet=False)
@theme_option
@click.option("-o", "--output", type=click.Path(path_type=Path), default=Path("output"), help="Folder for the PDF.")
def command(
    items: tuple[str, ...],
    contains: tuple[str, ...],
    may_contain: tuple[str, ...],
    undeclared: bool,
    says: str,
    house: str | None,
    menu: str | None,
    day: date | None,
    supply: SupplyAsked,
    asked: Asked,
    theme: str | None,
    output: Path,
) -> None:
    """Re-print only what says something else once ITEM has turned out wrong: a new label, a spill.

    ITEM is a bought item, a component, a by-product or a shared medium such as the fryer. The specs stay as they are:
    the command says where they must be mended. It prints one line to read aloud at the pass, and what to take down.
    """
    from linebook.cli.night import choose_menu
    from linebook.pipeline import load_house
    from linebook.void_prints import build_void

    if undeclared == bool(contains or may_contain):
        raise click.UsageError(
            "Say what is wrong: --contains SUBSTANCE, --may-contain SUBSTANCE, or --undeclared alone."
        )
    if output.exists() and not output.is_dir():
        raise click.UsageError(f"`{output}` is a file; -o takes a folder.")
    folder, shown = find_house(house)
    loaded = load_house(folder, shown, asked.languages)
    if loaded.value is None:
        stop_on_faults(loaded.faults)
        return
    kitchen = asked.house(loaded.value)
    issued = day or today()
    chosen = choose_menu(kitchen, menu, issued)
    kitchen = served_house(kitchen, supply, menu=chosen, day=issued, folder=folder).house
    things = _things(kitchen, items)
    printing = asked.printing(kitchen)
    built = build_void(
        kitchen,
        things,
        _turned(kitchen, contains, may_contain, issued, undeclared=undeclared, says=says),
        says,
        menu=chosen,
        printing=printing,
        issued=issued,
        folder=folder,
        name=printing.file_name(f"void-{things[0]}"),
        theme=theme or "",
    )
    stop_on_faults((*loaded.faults, *built.faults))
    if built.value is None:
        sys.exit(1)
    _say(kitchen, things, built.value, output, opens=asked.opens)


def _say(kitchen: House, things: Sequence[str], printed: VoidPrint, output: Path, *, opens: bool) -> None:
    from linebook.cli.bundle import say_one
    from linebook.cli.night import show_prints, write_prints

    click.echo(f"Read aloud at the pass:\n  {printed.aloud}\n")
    if printed.file is None:
        click.echo("No sheet says anything else: nothing to print.")
    else:
        write_prints([printed.file], output)
        click.echo("Take down, and put up the new sheet in its place:")
        for words in _rows(kitchen, printed.swaps):
            click.echo(f"  {words}")
        click.echo("")
        say_one(printed.file, output, punched=True)
        click.echo("The contents of the binders still name the old fingerprints: bind again after service.")
    for words in _to_mend(kitchen, things):
        click.echo(words)
    if printed.file is not None and opens:
        show_prints(output / printed.file.name)


def _rows(kitchen: House, swaps: Sequence[Swap]) -> Iterable[str]:
    lines = {line.id: f"{line.name} binder" for line in kitchen.file.lines}
    places = [lines.get(swap.line, "Front of house") for swap in swaps]
    sheets = [": ".join(dict.fromkeys((swap.document, swap.name))) for swap in swaps]
    first, second = max(map(len, places)), max(map(len, sheets))
    for place, sheet, swap in zip(places, sheets, swaps, strict=True):
        yield f"{place:{first}}  {sheet:{second}}  {swap.old} → {swap.new}"


def _to_mend(kitchen: House, things: Sequence[str]) -> Iterable[str]:
    """Yield where each spec must be mended: a void is of this service alone."""
    from linebook.compute.voiding import spec_of

    for thing in things:
        yield f"Mend the spec too, or the next print forgets it: {spec_of(kitchen, thing).place} (`{thing}`)"


def _things(kitchen: House, items: Iterable[str]) -> tuple[str, ...]:
    from linebook.compute.voiding import find_things, thing_words

    found: dict[str, None] = {}
    for item in items:
        named = find_things(kitchen, item)
        if not named:
            ids, names = thing_words(kitchen)
            refuse_word("item", item, nearest(item, ids) or nearest(item, names), ())
        found |= dict.fromkeys(named)
    return tuple(found)


def _turned(
    kitchen: House, contains: Iterable[str], may: Iterable[str], since: date, *, undeclared: bool, says: str
) -> Turned:
    from linebook.compute.voiding import Turned

    return Turned(
        contains=tuple(dict.fromkeys(_substance(kitchen, word) for word in contains)),
        may_contain=tuple(dict.fromkeys(_substance(kitchen, word) for word in may)),
        undeclared=undeclared,
        says=says,
        since=since,
    )


def _substance(kitchen: House, word: str) -> str:
    """Return the id of a substance by its id, name or a synonym, or of one of the house's own avoidances."""
    from linebook.model.taxonomy import find_substance, known_words

    own = kitchen.file.allergens.avoid
    for id_, name in own.items():
        if word.casefold() in (id_.casefold(), name.casefold()):
            return id_
    substance = find_substance(word)
    if substance is None:
        refuse_word("substance", word, nearest(word, (*own, *own.values(), *known_words())), ())
    return substance.id
