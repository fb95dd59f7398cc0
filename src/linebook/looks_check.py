"""Checks a house's own theme and templates without printing anything: what ``linebook check`` says of them.

Owns which files of the templates folder are read. It must not know what any template is for.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Final

from linebook.source.codes import fault
from linebook.source.faults import Fault
from linebook.source.nearest import nearest
from linebook.source.spans import SourceFile

if TYPE_CHECKING:
    from linebook.model.house import HouseFile
    from linebook.templating.templates import Templates

_READ: Final = (".j2", ".xml", ".yaml", ".yml")
_PART: Final = "part_"


def check_looks(house: HouseFile, folder: Path) -> tuple[Fault, ...]:
    """Return the faults of a house's theme, its fonts and its templates; LB116 for a file that is not read."""
    from linebook.house_theme import find_templates, open_looks
    from linebook.pdf.fonts import open_faces
    from linebook.templating.templates import Templates

    looks = open_looks(house, folder)
    if looks.value is None:
        return looks.faults
    faults = [*looks.faults, *open_faces(looks.value.theme, looks.value.theme_folder).faults]
    templates = Templates(looks.value.folders)
    shipped = tuple(find_templates())
    for name in shipped:
        if not name.startswith(_PART):
            faults += templates.check(name)
    faults += _strays(folder / "templates", shipped, templates)
    return tuple(dict.fromkeys(faults))


def _strays(folder: Path, shipped: tuple[str, ...], templates: Templates) -> Iterator[Fault]:
    """Yield the files of a house's templates folder that nothing reads, as a template under a mistyped name."""
    from linebook.house_theme import THEME_FILE, shown_templates
    from linebook.templating.outline import printed_by

    if not folder.is_dir():
        return
    printed = {one.name for name in shipped for one in printed_by(templates, name)}
    known = (*shipped, THEME_FILE)
    for path in sorted(folder.iterdir()):
        name = path.name
        if name in known or name in printed or not name.endswith(_READ) or name.startswith("."):
            continue
        close = nearest(name, known)
        hint = f"rename it to `{close}`" if close else "`linebook templates` lists the names that are read"
        place = SourceFile(path=f"{shown_templates(folder.parent)}/{name}", text="").whole()
        yield fault("LB116", f"`{name}` is not read", place, hints=(hint,))
