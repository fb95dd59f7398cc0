"""``linebook check``: reads a house and tells every fault in it."""

from __future__ import annotations

import click

from linebook.cli.options import find_house, form_option, stop_on_faults


@click.command(short_help="Read a house and tell every fault in it.")
@click.argument("house_folder", metavar="[HOUSE]", required=False)
@click.option("--house", help="The house folder, another way to name it.")
@click.option("--strict", is_flag=True, help="Let warnings count as faults too.")
@form_option
def command(house_folder: str | None, house: str | None, strict: bool, form: str) -> None:
    """Read the whole house and tell every fault in it, in one run.

    HOUSE is the folder with house.yaml; by default specs/ here, or the folder you stand in.
    """
    from linebook.pipeline import load_house

    folder, shown = find_house(house_folder or house)
    outcome = load_house(folder, shown)
    stop_on_faults(outcome.faults, form=form, strict=strict)
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
        click.echo(f"{checked.file.name}: {'no errors' if outcome.faults else 'clean'}. {counts}.")
