"""Cards that are not what their names or folders say: one fault for the file, not one a field."""

from __future__ import annotations

import re
from pathlib import Path, PurePosixPath
from typing import Final

from linebook.read.reading import Reading
from linebook.source.nodes import MappingNode
from linebook.source.spans import SourceFile

_MARKS: Final = {"components": "ingredients", "dishes": "elements"}
_LIKE_TRANSLATION: Final = re.compile(r"(?P<card>.+)[-_ ](?P<language>[Ee][NnSs])")
_A_CARD: Final = r"(?m)^(?:line|ingredients|elements):"


def is_misnamed_translation(root: Path, path: PurePosixPath, source: SourceFile, reading: Reading) -> bool:
    """Report ``short-rib-es.md`` beside ``short-rib.md``."""
    named = _LIKE_TRANSLATION.fullmatch(path.stem)
    if named is None or re.search(_A_CARD, source.text):
        return False
    if not (root / path.with_stem(named["card"])).is_file():
        return False
    right = f"{named['card']}.{named['language'].casefold()}{path.suffix}"
    message = f"`{path.name}` has words alone, and its name is that of a card, not of `{named['card']}` translated"
    reading.report("LB119", message, source.whole(), f"rename it to `{right}`")
    return True


def stands_elsewhere(node: MappingNode, path: PurePosixPath, reading: Reading) -> bool:
    """Report a dish among the components, or the other way round."""
    folder = path.parts[0]
    other, mark = ("dishes", "elements") if folder == "components" else ("components", "ingredients")
    if mark not in node.pairs or _MARKS[folder] in node.pairs:
        return False
    span = next(entry.key.span for entry in node.entries if entry.key.text == mark)
    message = f"this file has `{mark}`, as files in {other} have, and stands in {folder}"
    reading.report("LB106", message, span, f"move the file to {other}")
    return True
