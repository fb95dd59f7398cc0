"""``linebook schema``: prints the JSON Schema of the spec files."""

from __future__ import annotations

import json

import click

_KINDS = ("house", "pantry", "menu", "dish", "component", "words", "dish-words", "component-words")


@click.command(short_help="Print the JSON Schema of the spec files, for editors.")
@click.argument("kind", type=click.Choice(_KINDS), required=False)
def command(kind: str | None) -> None:
    """Print the JSON Schema (draft-07) of one KIND of spec file, or of all under `definitions`."""
    from linebook.read.schema import schema_for

    if kind is not None:
        schema = schema_for(kind)
    else:
        schema = {
            "$schema": "http://json-schema.org/draft-07/schema#",
            "definitions": {name: schema_for(name) for name in _KINDS},
        }
    click.echo(json.dumps(schema, indent=2, ensure_ascii=False))
