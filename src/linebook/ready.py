"""Gets ready to print a binder before it is known what the house says: imports, the usual fonts, the templates.

Owns what is done ahead of time, all of it the same whatever is printed, and the process that does it. Prints nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from linebook.copies import Ahead
    from linebook.templating.templates import Templates

_OF_BOTH: Final = (
    "linebook.binders_again",
    "linebook.check.ceilings",
    "linebook.check.cold_keeping",
    "linebook.check.index",
    "linebook.check.loads",
    "linebook.check.prose",
    "linebook.check.weights",
    "linebook.check.whole",
    "linebook.compute.ages",
    "linebook.compute.inside",
    "linebook.compute.kitchens",
    "linebook.compute.results",
    "linebook.compute.services",
    "linebook.kept_print",
    "linebook.model.cutting",
    "linebook.model.taxonomy",
    "linebook.pdf.printing",
    "linebook.pipeline",
    "linebook.read.house_folder",
    "linebook.sheet_store",
    "linebook.workshop",
)
"""What both processes use: imported before there are two, it is imported once."""

_MODULES: Final = (
    "linebook.compute.base",
    "linebook.compute.demand",
    "linebook.compute.refused",
    "linebook.cut_figures",
    "linebook.documents.allergen_matrix",
    "linebook.documents.batch_card",
    "linebook.documents.line_allergens",
    "linebook.documents.line_cover",
    "linebook.documents.plating_guide",
    "linebook.documents.set_up_sheet",
    "linebook.documents.station_card",
    "linebook.figures.elevation",
    "linebook.figures.plates",
    "linebook.markup.fingerprint",
    "linebook.model.letters",
    "linebook.pdf.binder",
    "linebook.pdf.square_table",
    "linebook.plate_figures",
)
_OF_ANY: Final = (
    "linebook.documents.station_card",
    "linebook.markup.fingerprint",
    "linebook.pdf.binder",
)
_DOCUMENTS: Final = (
    "line-cover",
    "line-allergens",
    "set-up-sheet",
    "station-card",
    "plating-guide",
    "batch-card",
    "cutting-plan",
    "allergen-matrix",
)


_BEGUN: Final[list[Ahead[Any]]] = []


def begin_ahead(*, few: bool) -> None:
    """Start the process that gets ready, before the words of the command are understood: with the imports.

    ``few`` says that most sheets are likely to stand as they were printed before.
    """
    from linebook.copies import Ahead

    end_ahead()
    _import(_OF_BOTH)
    _BEGUN.append(Ahead(partial(_import, _OF_ANY if few else _MODULES)))


def take_ahead() -> Ahead[Any]:
    """Return the process that was started, or one that is started now; who takes it ends it."""
    if not _BEGUN:
        begin_ahead(few=False)
    return _BEGUN.pop()


def end_ahead() -> None:
    """End the process that nobody took."""
    while _BEGUN:
        _BEGUN.pop().end()


def _import(modules: Sequence[str]) -> None:
    for module in modules:
        import_module(module)


def get_ready(folder: Path, theme: str = "") -> Templates:
    """Return the templates of the house in ``folder``, looked over and compiled; what draws them is imported.

    ``theme`` is the one asked for; '' takes the standard one's fonts, which a house may still change.
    """
    _import(_MODULES)
    templates = get_ready_for_few(folder, theme)
    from linebook.templating.templates import template_name

    for document in _DOCUMENTS:
        templates.get_ready(template_name(document))
    return templates


def get_ready_for_few(folder: Path, theme: str = "") -> Templates:
    """Return the templates as they are; what any sheet is drawn by is imported."""
    _import(_OF_ANY)
    from linebook.house_theme import shipped_theme, template_folders
    from linebook.pdf.fonts import open_faces
    from linebook.templating.templates import Templates

    usual = shipped_theme(theme)
    faces = open_faces(usual).value if usual else None
    if faces is not None:  # what is wrong with a font is told when it is opened for a document
        faces.load()
    return Templates(template_folders(folder))
