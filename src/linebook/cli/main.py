"""The command line: which commands there are, and how any other mistake of ours is told."""

from __future__ import annotations

import importlib
import os
import sys
from typing import Final

import click

# Each command's module is imported only when it is asked for, so that help and completion answer at once.
_COMMANDS: Final = {
    "check": "Read a house and tell every fault in it.",
    "bind": "Print every line's binder and the allergen matrix.",
    "batch": "Size one component for a night, an amount, or what you have.",
    "matrix": "Print the allergen matrix of a menu.",
    "plan": "Print what to start when, so that it is ready for its service.",
    "call": "Print what starts how many minutes before the plates land.",
    "lineup": "Print what servers are told of every dish before the doors open.",
    "labels": "Print labels for the containers of what is made on a day.",
    "tasting": "Print the sheet of the tasting before service.",
    "note": "Put a tasting note into the log of a dish or component.",
    "notes": "Print the chef's copy of the tasting notes, with room to write.",
    "setup": "Print which pans each line sets up for a night.",
    "yields": "Show what of the bought items can be used, tested or declared.",
    "order": "Print what to order for some days, by supplier and delivery.",
    "cost": "Tell the chef what a plate, a portion or a batch costs.",
    "guest": "Say what a guest may be served, and print the guest sheet.",
    "why": "Prove an answer: every way from a dish to a declaration.",
    "swap": "Print what to pull from the binders, put in and leave.",
    "current": "Say whether a printed sheet is still current.",
    "void": "Re-print what says something else when an item turns out wrong in service.",
    "watch": "Print again whenever a file of the house is saved.",
    "screen": "Make pages for a phone or a tablet: cards, plates and the matrix.",
    "count": "Print what each line counts at the end of a night.",
    "new": "Start a small house in a new folder.",
    "templates": "List templates and themes, tell what each gets, copy them out.",
    "explain": "Tell what a fault code means and how to mend it.",
    "schema": "Print the JSON Schema of the spec files, for editors.",
}


class _Commands(click.Group):
    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(_COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in _COMMANDS:
            return None
        module = importlib.import_module(f"linebook.cli.{cmd_name}")
        command: click.Command = module.command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl(list(_COMMANDS.items()))

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        if args and args[0] not in _COMMANDS and not args[0].startswith("-"):
            from linebook.source.nearest import nearest

            near = nearest(args[0], _COMMANDS)
            hint = f" Did you mean `{near}`?" if near else f" There are: {', '.join(_COMMANDS)}."
            ctx.fail(f"There is no command `{args[0]}`.{hint}")
        return super().resolve_command(ctx, args)


def _show_version(ctx: click.Context, _param: click.Parameter, wanted: bool) -> None:
    if wanted and not ctx.resilient_parsing:
        from linebook import __version__

        click.echo(f"linebook {__version__}")
        ctx.exit()


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.option(
    "--version", is_flag=True, expose_value=False, is_eager=True, callback=_show_version, help="Say which version."
)
def command() -> None:
    """Turn a kitchen's plain-text dish specs into the printed binders its lines cook from."""


def main() -> None:
    """Run the command line. Any exception that is not a fault or a wrong command is our bug, and is told as one."""
    try:
        command(prog_name="linebook", obj=tuple(sys.argv[1:]))  # as typed, by which `bind` knows a print again
    except Exception as mistake:
        if isinstance(mistake.__cause__, KeyboardInterrupt):  # Python makes another error of it while a class is made
            raise mistake.__cause__ from None
        if os.environ.get("LINEBOOK_TRACE"):
            raise
        where = mistake.__traceback__
        while where and where.tb_next:
            where = where.tb_next
        place = f"{os.path.basename(where.tb_frame.f_code.co_filename)}:{where.tb_lineno}" if where else "?"
        click.echo(
            "This is a mistake in linebook, not in your specs; nothing was written over. Please report this line:\n"
            f"  {type(mistake).__name__} at {place}: {str(mistake)[:300]}",
            err=True,
        )
        sys.exit(3)
