"""What ``plan`` says in the terminal: how much each line has to do each day, and what cannot be ready."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from linebook.compute.plan_record import Change
    from linebook.compute.plan_results import PrepPlan
    from linebook.model.house import House


def say_plan(house: House, plan: PrepPlan, lines: Sequence[str]) -> None:
    """Print the work of each line and day in hours, what is too much, and what cannot be ready."""
    from linebook.documents.plan_words import days_of, unready_runs, unready_text
    from linebook.documents.text import NO_BREAK
    from linebook.documents.wording import english

    wording = english()
    days = days_of(plan)[:7]
    names = [line for line in house.file.lines if line.id in lines]
    widest = max(len(line.name) for line in names)
    heads = "  ".join(f"{wording.say(f'weekday.{day.weekday()}').plain} {day.day:>2}" for day in days)
    click.echo(click.style(f"{'work by hand':{max(widest, 12)}}  {heads}", bold=True))
    work = {(one.line, one.day): one for one in plan.work}
    for line in names:
        cells = []
        for day in days:
            known = work.get((line.id, day))
            text = f"{known.minutes // 60}:{known.minutes % 60:02}" if known else "-"
            cells.append(f"{text + '!' if known and known.is_over else text:>6}")
        click.echo(f"{line.name:{max(widest, 12)}}  {'  '.join(cells)}")
    if any(one.is_over for one in plan.work):
        click.echo("! is more than the cooks of that line have outside service.")
    for one, served in unready_runs(plan.unready):
        said = unready_text(house, plan, one, served, wording).plain.replace(NO_BREAK, " ")
        click.echo(f"Not ready: {said}", err=True)


def say_changes(house: House, changes: Sequence[Change], lines: Sequence[str]) -> None:
    """Print how many batches of the lines have changed since the saved plan, by kind."""
    from linebook.documents.plan_marks import house_that_makes

    makers = [(one, house_that_makes(house, one.component)) for one in changes]
    told = [one for one, known in makers if known is not None and known.components[one.component].line in lines]
    unknown = sorted({one.component for one, known in makers if known is None})
    if unknown:
        names = ", ".join(f"`{one}`" for one in unknown)
        click.echo(f"In the saved plan and no longer in the specs: {names}. No sheet tells of it.", err=True)
    counts: dict[str, int] = {}
    for change in told:
        for kind in change.kinds:
            counts[kind.value] = counts.get(kind.value, 0) + 1
    if not counts:
        click.echo("No time and no amount has changed since the saved plan.")
        return
    click.echo(f"Since the saved plan: {', '.join(f'{count} {kind}' for kind, count in counts.items())}.")
