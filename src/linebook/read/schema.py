"""JSON Schema (draft-07) of each kind of file, made from the same declarations as the reader.

For editors: it helps while typing. ``check`` is the judge, and finds what a schema cannot say.
"""

from __future__ import annotations

from linebook.read.fields import Schema
from linebook.read.kinds import KINDS

DRAFT: str = "http://json-schema.org/draft-07/schema#"


def schema_for(kind: str) -> Schema:
    """Return the schema of ``house``, ``pantry``, ``menu``, ``dish`` or ``component`` (of the last two, the fields).

    ``words``, ``dish-words`` and ``component-words`` are the same in another language. It is a new value each time.
    Values are as an editor's YAML 1.2 reader sees them: what looks like a number is one.
    """
    found = KINDS[kind]
    return {"$schema": DRAFT, "title": f"linebook {found.where}", **found.root.schema()}
