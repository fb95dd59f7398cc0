"""``linebook check``: reads a house and tells every fault in it."""

from __future__ import annotations

import os

import click

from linebook.cli.options import find_house, form_option, stop_on_faults
from linebook.cli.supply_refused import no_supply
from linebook.source.faults import Fault


@click.command(short_help="Read a house and tell every fault in it.")
@click.argument("house_folder", metavar="[HOUSE]", required=False)
@click.option("--house", help="The house folder, another way to name it.")
@click.option("--strict", is_flag=True, help="Let warnings count as faults too.")
@form_option
@no_supply("it reads the specs as they are written, and what is named as able to stand in with them")
def command(house_folder: str | None, house: str | None, strict: bool, form: str) -> None:
    """Read the whole house and tell every fault in it, in one run.

    HOUSE is the folder with house.yaml; by default specs/ here, or the folder you stand in.
    """
    from linebook.pipeline import load_house

    folder, shown = find_house(house_folder or house)
    outcome = load_house(folder, shown)
    looks: tuple[Fault, ...] = ()
    if outcome.value is not None and (outcome.value.file.theme or os.path.lexists(folder / "templates")):
        from linebook.looks_check import check_looks  # here, because most houses have no looks of their own

        looks = check_looks(outcome.value.file, folder)
    stop_on_faults((*outcome.faults, *looks), form=form, strict=strict)
    if outcome.value is not None and form == "human":
        checked = outcome.value
        counts = ", ".join(
            f"{len(found)} {one if len(found) == 1 else several}"
            for found, one, several in (
                (checked.dishes, "dish", "dishes"),
                (checked.components, "component", "components"),
                (checked.pantry, "pantry item", "pantry items"),
                (checked.menus, "menu", "menus"),
            )
        )
        click.echo(f"{checked.file.name}: {'no errors' if outcome.faults or looks else 'clean'}. {counts}.")
        if checked.prints_translations:
            from linebook.documents.untranslated import untranslated_sentences

            for sentence in untranslated_sentences(checked):
                click.echo(f"{sentence}.")
