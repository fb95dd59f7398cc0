"""Commands that take no ``--without`` or ``--on-hand`` refuse them in words, so that nobody thinks they were heard."""

from __future__ import annotations

from collections.abc import Callable

import click


def refused_option(option: str, why: str) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """Give a command an option that it refuses, saying why: nobody must think that it was listened to."""

    def refuse(ctx: click.Context, _param: click.Parameter, given: tuple[str, ...]) -> None:
        if given and not ctx.resilient_parsing:
            raise click.UsageError(f"`{ctx.info_name}` takes no {option}: {why}.")

    return click.option(option, multiple=True, hidden=True, expose_value=False, callback=refuse)


def no_supply(why: str) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """Give a command that reads the specs as they are a clear refusal of ``--without`` and ``--on-hand``."""

    def decorate(command: Callable[..., None]) -> Callable[..., None]:
        return refused_option("--without", why)(refused_option("--on-hand", why)(command))

    return decorate
