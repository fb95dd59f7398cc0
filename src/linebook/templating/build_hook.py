"""Has the shipped templates compiled when linebook is installed: hatchling runs it, and nothing else imports it."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class CompiledTemplates(BuildHookInterface[Any]):
    """Writes the templates' code into the tree that is installed."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Compile before files are collected; linebook itself is not installed yet."""
        del version, build_data
        source = str(Path(self.root) / "src")
        sys.path.insert(0, source)
        try:
            from linebook.templating.compiling import main

            main()
        finally:
            sys.path.remove(source)
