"""The type of the fixture that runs a command."""

from __future__ import annotations

from collections.abc import Callable

from click.testing import Result

Run = Callable[..., Result]
