"""Finds a house's theme and templates: the house's own first, then those that come with linebook.

Owns where they are looked for, which theme a house has, and how what a house changes is laid over the theme it is based
on. It must not know what any value of a theme is for. Prints nothing.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, Any, Final

from linebook.source.codes import fault
from linebook.source.faults import Fault, Outcome, Severity
from linebook.source.files import leads_out, read_source
from linebook.source.frozen import frozen
from linebook.source.nearest import nearest
from linebook.source.nodes import Entry, MappingNode, Node, Scalar
from linebook.source.spans import SourceFile, Span

if TYPE_CHECKING:
    from linebook.model.house import HouseFile
    from linebook.pdf.theme import Theme
    from linebook.templating.templates import TemplateFolder

STANDARD: Final = "standard"
BASED_ON: Final = "based_on"
THEME_FILE: Final = "theme.yaml"
_THEMES: Final = "themes"
_NAME: Final = re.compile(r"[a-z0-9][a-z0-9-]{0,60}")


@frozen
class Looks:
    """How a house's sheets look: its theme, the folder its own fonts stand in, and where its templates are found."""

    theme: Theme
    theme_folder: Path
    folders: tuple[TemplateFolder, ...]


@frozen
class _Layer:
    """One theme file as read: what it says, without what it is based on. A house's own has no ``name``."""

    name: str
    source: SourceFile
    node: Node
    base: Scalar | None


def open_looks(house: HouseFile, folder: Path, asked: str = "") -> Outcome[Looks]:
    """Return the theme and templates of the house in ``folder``.

    What the house's own ``templates/theme.yaml`` says is laid, name by name, over the theme ``asked`` for, else over
    the one it is based on, else over the one that house.yaml names, else over the standard one; a list takes the place
    of a list. Faults: LB113 (a templates folder that leads out of the house), LB701 (linebook's own theme is not
    there), LB808 (a theme that is not there), and those of reading files and themes.
    """
    if leads_out(folder, PurePosixPath("templates")):
        place = SourceFile(path=shown_templates(folder), text="").whole()
        hints = ("put the folder itself in the house folder",)
        return _refused(fault("LB113", "this folder leads out of the house folder", place, hints=hints))
    folders = template_folders(folder)
    layers = _layers(house, folder, asked)
    if layers.value is None:
        return Outcome(value=None, faults=layers.faults)
    theme = _theme(layers.value, tuple(line.id for line in house.lines))
    faults = (*layers.faults, *theme.faults)
    if theme.value is None or any(one.severity is Severity.ERROR for one in faults):
        return Outcome(value=None, faults=faults)
    return Outcome(value=Looks(theme=theme.value, theme_folder=folder / "templates", folders=folders), faults=faults)


def shipped_theme(name: str) -> Theme | None:
    """Return a theme that comes with linebook as it is, without the lines of a house; None where there is none."""
    layer = _shipped(name or STANDARD, None).value
    return _theme((layer,), ()).value if layer and layer.base is None else None


def find_themes() -> dict[str, tuple[Path, str]]:
    """Return the themes that come with linebook by name, the standard one first: folder and file name."""
    found: dict[str, tuple[Path, str]] = {}
    for place, _ in _shipped_places():
        if (place / THEME_FILE).is_file():
            found.setdefault(STANDARD, (place, THEME_FILE))
        for path in sorted((place / _THEMES).glob("*.yaml")):
            found.setdefault(path.stem, (place, f"{_THEMES}/{path.name}"))
    return found


def find_templates() -> dict[str, Path]:
    """Return the templates that come with linebook by file name, each with its folder."""
    from linebook.templating.templates import SUFFIX

    found: dict[str, Path] = {}
    for place, _ in _shipped_places():
        for path in sorted(place.glob(f"*{SUFFIX}")):
            found.setdefault(path.name, place)
    return found


def theme_in_use(house: HouseFile, folder: Path) -> tuple[str, str]:
    """Return the name of the theme that a house's pages are set in, or '' and what is wrong with its theme."""
    layers = _layers(house, folder, "")
    if layers.value is None:
        return "", "; ".join(one.message for one in layers.faults)
    own = layers.value[0]
    if own.name:
        return own.name, ""
    return layers.value[1].name, ""


def template_folders(house_folder: Path) -> tuple[TemplateFolder, ...]:
    """Return where templates are looked for, first come first: the house's own, the packaged copy, the checkout."""
    from linebook.templating.templates import TemplateFolder

    places = ((house_folder / "templates", shown_templates(house_folder)), *_shipped_places())
    return tuple(TemplateFolder(path=path, shown=shown) for path, shown in places if path.is_dir())


def shown_templates(house_folder: Path) -> str:
    """Return how people know the folder of a house's own templates."""
    return (PurePosixPath(house_folder.as_posix()) / "templates").as_posix()


def _shipped_places() -> tuple[tuple[Path, str], ...]:
    package = Path(__file__).parent
    return ((package / "_templates", "linebook/_templates"), (package.parent.parent / "templates", "templates"))


# -- layers


def _layers(house: HouseFile, folder: Path, asked: str) -> Outcome[tuple[_Layer, ...]]:
    """Return the theme files of a house, the topmost first: its own, if it has one, and those it is based on."""
    layers: list[_Layer] = []
    faults: list[Fault] = []
    base, place = asked or house.theme or STANDARD, (house.at("theme") if house.theme and not asked else None)
    own = folder / "templates" / THEME_FILE
    if own.exists() or own.is_symlink():
        read = _read_layer("", own.parent, THEME_FILE, shown_templates(folder))
        faults += read.faults
        if read.value is None:
            return Outcome(value=None, faults=tuple(faults))
        layers.append(read.value)
        if read.value.base is not None and not asked:
            base, place = read.value.base.text, read.value.base.span
    while base:
        under = _shipped(base, place)
        faults += under.faults
        if under.value is None:
            return Outcome(value=None, faults=tuple(faults))
        layers.append(under.value)
        named = under.value.base
        base, place = (named.text, named.span) if named else ("", None)
    return Outcome(value=tuple(layers), faults=tuple(faults))


def _shipped(name: str, place: Span | None) -> Outcome[_Layer]:
    """Read a theme that comes with linebook; ``place`` is where it was named."""
    file = THEME_FILE if name == STANDARD else f"{_THEMES}/{name}.yaml"
    if _NAME.fullmatch(name):
        for path, shown in _shipped_places():
            if (path / file).is_file():
                return _read_layer(name, path, file, shown)
    known = find_themes()
    if STANDARD not in known:
        missing = "there is no `theme.yaml` in any template folder"
        return _refused(fault("LB701", missing, None, hints=("install again",)))
    close = nearest(name, known)
    hint = f"did you mean `{close}`?" if close else f"write one of {', '.join(known)}"
    return _refused(fault("LB808", f"there is no theme `{name}`", place, hints=(hint,)))


def _read_layer(name: str, folder: Path, file: str, shown: str) -> Outcome[_Layer]:
    from linebook.source.yaml_reader import read_yaml

    source = read_source(folder, PurePosixPath(file), shown)
    if source.value is None:
        return Outcome(value=None, faults=source.faults)
    read = read_yaml(source.value, 0, len(source.value.text))
    if read.value is None:
        return Outcome(value=None, faults=read.faults)
    if not isinstance(read.value, MappingNode):
        hints = ("write what is to look otherwise, as `margins: {outer: 22 mm}`, or take the file away",)
        message = "a theme holds names and values"
        return _refused(*read.faults, fault("LB108", message, read.value.span, hints=hints))
    named = next((entry for entry in read.value.entries if entry.key.text == BASED_ON), None)
    base = named.value if named else None
    if base is not None and not (isinstance(base, Scalar) and base.text):
        hints = (f"write the name of a theme, as `{BASED_ON}: {STANDARD}`",)
        return _refused(*read.faults, fault("LB108", f"`{BASED_ON}` is the name of one theme", base.span, hints=hints))
    rest = tuple(entry for entry in read.value.entries if entry is not named)
    layer = _Layer(name=name, source=source.value, node=MappingNode(rest, read.value.span), base=base)
    return Outcome(value=layer, faults=read.faults)


# -- laying over


def _theme(layers: Sequence[_Layer], lines: Sequence[str]) -> Outcome[Theme]:
    from linebook.markup.vocabulary import PARAGRAPH_ROLES
    from linebook.pdf.theme_reader import theme_of

    node = layers[-1].node
    for layer in reversed(layers[:-1]):
        node = laid_over(layer.node, node)
    return theme_of(node, [layer.source for layer in layers], paragraph_roles=PARAGRAPH_ROLES, lines=lines)


def laid_over(upper: Node, lower: Node) -> Node:
    """Return two trees as one: what the upper says, and what the lower says beside it. A list is taken whole."""
    if not isinstance(upper, MappingNode) or not isinstance(lower, MappingNode):
        return upper
    above = {entry.key.text: entry for entry in upper.entries}
    both = [_laid_entry(above.pop(entry.key.text, entry), entry) for entry in lower.entries]
    return MappingNode((*both, *above.values()), upper.span)


def _laid_entry(upper: Entry, lower: Entry) -> Entry:
    return upper if upper is lower else Entry(upper.key, laid_over(upper.value, lower.value))


def _refused(*faults: Fault) -> Outcome[Any]:
    return Outcome(value=None, faults=faults)
