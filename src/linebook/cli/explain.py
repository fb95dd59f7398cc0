"""``linebook explain``: prints the page about a fault code."""

from __future__ import annotations

from pathlib import Path

import click
from click.shell_completion import CompletionItem

from linebook.source.codes import CODES
from linebook.source.nearest import nearest


class _CodeType(click.ParamType[str]):
    name = "code"

    def shell_complete(self, ctx: click.Context, param: click.Parameter, incomplete: str) -> list[CompletionItem]:
        return [
            CompletionItem(number, help=code.title) for number, code in CODES.items() if number.startswith(incomplete)
        ]


@click.command(short_help="Tell what a fault code means and how to mend it.")
@click.argument("code", type=_CodeType(), required=False)
def command(code: str | None) -> None:
    """Tell what a fault code means and how to mend it. Without CODE: list them all."""
    if code is None:
        for number, entry in CODES.items():
            click.echo(f"{number}  {entry.severity.value:8} {entry.title}")
        return
    click.echo(_page(_find_number(code)))


def _find_number(word: str) -> str:
    by_name = {entry.name: number for number, entry in CODES.items()}
    asked = word.strip().upper()
    asked = f"LB{asked}" if asked.isdigit() else asked
    number = asked if asked in CODES else by_name.get(word.strip().lower())
    if number is None:
        near = nearest(asked, CODES) or nearest(word.lower(), by_name)
        hint = f" Did you mean `{near}`?" if near else " `linebook explain` lists them all."
        raise click.UsageError(f"There is no fault code `{word}`.{hint}")
    return number


def _page(number: str) -> str:
    page = Path(__file__).parent.parent / "explain" / f"{number}.md"
    return page.read_text(encoding="utf-8").rstrip()
