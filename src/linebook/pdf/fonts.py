"""The four faces of a theme: found, refused, loaded and measured.

Owns which file a face is and how wide its words are. It must not know what is drawn, nor how a file is read.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING, Final

from linebook.pdf.font_files import load_font, refusal_of, stamped
from linebook.pdf.theme import FACES, Theme
from linebook.source.codes import fault
from linebook.source.faults import Fault, Outcome

if TYPE_CHECKING:
    from linebook.pdf.library import ttfonts

_NO_BREAK: Final = (0xA0,)


class _Letters(dict[str, float]):
    """How wide the letters met so far are, in thousandths: each is looked up by its code once."""

    def __init__(self, widths: Mapping[int, float]) -> None:
        self.widths = widths

    def __missing__(self, letter: str) -> float:
        self[letter] = wide = self.widths[ord(letter)]
        return wide


class Face:
    """One loaded face. Widths are in thousandths of the size."""

    def __init__(self, name: str, font: ttfonts.TTFont, known: dict[str, float]) -> None:
        self.name = name
        self.font = font
        self.glyphs: Mapping[int, int] = font.face.charToGlyph
        self.ascent: float = font.face.ascent / 1000
        self.descent: float = -font.face.descent / 1000
        self.capital: float = font.face.capHeight / 1000
        self.missing: set[str] = set()
        self.known = known
        """The widths of the words met so far, at size 1."""
        self._letters = _Letters(font.face.charWidths)

    @property
    def x_height(self) -> float:
        """Return the height of a small x at size 1: its outline's own, since not every font states it."""
        face = self.font.face
        start = face.get_table_pos("glyf")[0] + face.glyphPos[self.glyphs[ord("x")]]
        top = int.from_bytes(face._ttf_data[start + 8 : start + 10], "big", signed=True)
        return top / float(face.unitsPerEm)

    def width(self, text: str) -> float:
        """Return the width of ``text`` at size 1; a character the face lacks is noted in ``missing``."""
        known = self.known.get(text)
        if known is None:
            try:
                known = sum(map(self._letters.__getitem__, text)) / 1000
            except KeyError:  # not kept, so that another document whose face lacks it hears of it too
                return self._width_of_some(text) / 1000
            self.known[text] = known
        return known

    def _width_of_some(self, text: str) -> float:
        """Return the width of those characters that the face has, in thousandths; the others are noted."""
        widths = self._letters.widths
        self.missing.update(letter for letter in text if ord(letter) not in widths)
        return sum([widths.get(ord(letter), 0.0) for letter in text])


class Faces:
    """The four faces of a theme, each loaded when first needed."""

    def __init__(self, paths: Mapping[str, Path], ready: str) -> None:
        self._paths = paths
        self._loaded: dict[str, Face] = {}
        self.ready = ready

    def __getitem__(self, name: str) -> Face:
        face = self._loaded.get(name)
        if face is None:
            face = self._loaded[name] = Face(name, *load_font(name, *stamped(self._paths[name])))
        return face

    def load(self) -> None:
        """Load all four now, for whoever opens the same files later."""
        for name, path in self._paths.items():
            load_font(name, *stamped(path))

    def missing(self) -> tuple[str, ...]:
        """Return the characters measured so far that their face does not have, sorted."""
        return tuple(sorted(set().union(*(face.missing for face in self._loaded.values()))))

    def lacks(self, letters: Iterable[str]) -> tuple[str, ...]:
        """Return those of ``letters`` that the upright face does not have, sorted; a no-break space is a space."""
        lacking = set(map(ord, letters)).difference(self["regular"].glyphs, _NO_BREAK)
        return tuple(map(chr, sorted(lacking)))


def open_faces(theme: Theme, folder: Path | None = None) -> Outcome[Faces]:
    """Find and check the theme's font files; ``folder`` is where a theme's own files stand.

    Faults: LB805 for a file that is missing, is not static TrueType or may not be put into a PDF.
    """
    fonts = theme.fonts
    faults: list[Fault] = []
    paths: dict[str, Path] = {}
    for name in FACES:
        package, inner = ("", fonts.own_folder) if name in fonts.own else (fonts.package, fonts.folder)
        path = _path_of(package, inner, fonts.files[name], folder)
        refused = "is not there" if path is None else refusal_of(path, trusted=bool(package))
        if refused or path is None:
            place = f"the package `{package}`" if package else "the folder of theme.yaml"
            hint = f"name a static TrueType file (.ttf) of {place} in the `fonts` of theme.yaml"
            message = f"the {name} font `{fonts.files[name]}` {refused}"
            faults.append(fault("LB805", message, fonts.spans.get(name), hints=(hint,)))
        else:
            paths[name] = path
    if faults:
        return Outcome(value=None, faults=tuple(faults))
    return Outcome(value=Faces(paths, fonts.ready))


def _path_of(package: str, inner: str, name: str, folder: Path | None) -> Path | None:
    """Return where a font file is; neither names nor links lead out of a theme's folder, nor names out of a package."""
    place = _folder_of(package) if package else folder
    if place is None or not _is_plain(name) or (inner and not _is_plain(inner)):
        return None
    try:
        path = place / inner / name
        inside = bool(package) or path.resolve().is_relative_to(place.resolve())
        return path if inside and path.is_file() else None
    except (OSError, ValueError, RuntimeError):
        return None


def _is_plain(name: str) -> bool:
    return bool(name) and not name.startswith(".") and not {"/", "\\", ":", "\0"} & set(name)


def _folder_of(package: str) -> Path | None:
    """Return where an installed package lies. It is not imported: a theme must not say what code is run."""
    try:
        spec = find_spec(package) if package.isidentifier() else None
    except (ImportError, ValueError):
        return None
    places = list(spec.submodule_search_locations or ()) if spec else []
    return Path(places[0]) if places else None
