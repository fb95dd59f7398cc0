"""``linebook new``: starts a small, commented house that checks clean."""

from __future__ import annotations

import sys
from pathlib import Path

import click


@click.command(short_help="Start a small house in a new folder.")
@click.argument("folder", type=click.Path(path_type=Path))
def command(folder: Path) -> None:
    """Start a small house in FOLDER: one line, one dish, two components, all commented, ready to change."""
    from linebook.writing.atomic import write_files

    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise click.UsageError(f"`{folder}` is there already and not empty; name a new folder.")
    starter = Path(__file__).parent.parent / "starter"
    sources = sorted(path for path in starter.rglob("*") if path.suffix in {".yaml", ".md"})
    try:
        write_files([(folder / path.relative_to(starter), path.read_bytes()) for path in sources])
    except OSError as mistake:
        click.echo(f"`{folder}` cannot be written: {mistake.strerror}", err=True)
        sys.exit(1)
    click.echo(f"{folder}: {len(sources)} files. Next:\n  linebook check {folder}\n  linebook bind {folder}")
