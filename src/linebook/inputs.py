"""Everything a print depends on, by what it holds: the specs, photographs, looks and register of a house, and our code.

Owns which files those are, as text alone tells: nothing is parsed. It reads no clock and imports next to nothing,
because a run with nothing to do is over sooner than most modules are imported. It must not know what any file means. No
file of a house is taken for unchanged by its time.
"""

from __future__ import annotations

import os
import stat
import sys
from collections.abc import Callable, Iterator, Mapping
from hashlib import sha256
from typing import Final

HOUSE: Final = ""
"""The name under which a house folder that is not there stands among its files."""

_KEPT_AS_TEXT: Final = (".yaml", ".yml", ".md", ".markdown", ".mdown", ".mkd", ".txt")
_FOLDERS: Final = ("pantry", "menus", "dishes", "components")
_LOOKS: Final = (".j2", ".yaml", ".yml", ".xml")
_MOST_SPEC_BYTES: Final = 1_000_000
_CHUNK: Final = 1 << 20
_NOT_THERE: Final = "not there"
_NAME_ALONE: Final = "name"
_PHOTOS: Final = b"photos/"
_FLAGS: Final = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_CLOEXEC", 0) | getattr(os, "O_BINARY", 0)


def find_inputs(house: str, output: str = "", heavy: Callable[[str], str] | None = None) -> dict[str, str]:
    """Return what each file is that a print of a house folder depends on: its digest by its path in the folder.

    A file that is named and not there is among them, and so is one of which the name alone matters. What is printed
    into ``output`` never is, wherever that folder lies. ``heavy`` gives the digest of a photograph or a font, for one
    who remembers some.
    """
    root = house or os.curdir
    listed = _names(root, "")
    if listed is None:
        return {HOUSE: "no folder"}
    taken = heavy or digest_of
    own = _own_place(root, output)
    named: set[str] = set()
    found: dict[str, str] = {}
    for name in listed:
        if name in _FOLDERS:
            found |= _specs(root, name, named, is_output=own == name)
        elif name not in ("templates", "issued", "photos") and name != own.partition("/")[0]:
            found |= _at_root(root, name)
        if os.path.islink(os.path.join(root, name)):
            found.setdefault(name, _led(os.path.join(root, name)))
    if "templates" in listed:
        found |= _looks(root, taken, is_output=own == "templates")
    if "issued" in listed:
        issues = [name for name in _names(root, "issued") or [] if name.endswith(".txt")]
        found |= {f"issued/{name}": digest_of(os.path.join(root, "issued", name)) for name in issues}
    return found | {name: taken(os.path.join(root, name)) for name in named}


def digest_of(path: str, named: set[str] | None = None) -> str:
    """Return the digest of a file's bytes, and where a link leads; words where it is not there or cannot be read.

    The photographs it names are added to ``named``.
    """
    try:
        led = f"{_led(path)} " if os.path.islink(path) else ""
        descriptor = os.open(path, _FLAGS)
    except FileNotFoundError:
        return _NOT_THERE
    except OSError as error:
        return f"error {error.errno}"
    try:
        if not stat.S_ISREG(os.fstat(descriptor).st_mode):
            return "no plain file"
        made = sha256()
        while part := os.read(descriptor, _CHUNK):
            made.update(part)
            if named is not None:
                named.update(_photographs(part))
        return led + made.hexdigest()
    except OSError as error:
        return f"error {error.errno}"
    finally:
        os.close(descriptor)


def changed_between(before: Mapping[str, str], after: Mapping[str, str]) -> tuple[tuple[str, str], ...]:
    """Return each file that is not as it was, sorted, with what happened to it: new, gone or changed."""
    told = []
    for path in sorted(before.keys() | after.keys()):
        was, now = before.get(path, _NOT_THERE), after.get(path, _NOT_THERE)
        if was != now:
            told.append((path, "new" if was == _NOT_THERE else "gone" if now == _NOT_THERE else "changed"))
    return tuple(told)


def digest_of_all(inputs: Mapping[str, str], *others: str) -> str:
    """Return one digest of inputs and of whatever else a print depends on."""
    made = sha256()
    for word in (*others, *(f"{path}\0{digest}" for path, digest in sorted(inputs.items()))):
        text = word.encode("utf-8", "surrogateescape")
        made.update(b"%d\n" % len(text))  # so that no two lists of words run together to the same bytes
        made.update(text)
    return made.hexdigest()


def code_state() -> str:
    """Return what tells this code from any other: our files, the versions of all that is installed, Python and zlib.

    Our own files go by their sizes and times, which is how Python too finds out whether to compile one again.
    """
    import zlib  # the library of the system, which says what a page is packed to

    package = os.path.dirname(os.path.abspath(__file__))
    shipped = os.path.join(os.path.dirname(os.path.dirname(package)), "templates")
    files = [line for folder in (package, shipped) for line in _stamps(folder)]
    versions = [name for place in sys.path for name in _installed(place)]
    return "\n".join([sys.version, zlib.ZLIB_RUNTIME_VERSION, *sorted(files), *sorted(versions)])


def _stamps(folder: str) -> Iterator[str]:
    try:
        entries = list(os.scandir(folder))
    except OSError:
        return
    for entry in entries:
        if entry.name.startswith((".", "__pycache__")):
            continue
        if entry.is_dir():
            yield from _stamps(entry.path)
        else:
            status = entry.stat()
            yield f"{entry.path} {status.st_size} {status.st_mtime_ns}"


def _installed(place: str) -> list[str]:
    try:
        return [name for name in os.listdir(place) if name.endswith((".dist-info", ".egg-info"))]
    except OSError:
        return []


# -- which files


def _names(root: str, folder: str) -> list[str] | None:
    """Return the names in a folder that are looked at, sorted; None where it cannot be listed."""
    try:
        names = sorted(os.listdir(os.path.join(root, folder)))
    except (OSError, ValueError):
        return None
    return [name for name in names if not _is_passed_over(name)]


def _is_passed_over(name: str) -> bool:
    return name.startswith((".", "~$")) or name.endswith("~") or name.casefold() in ("thumbs.db", "desktop.ini")


def _own_place(root: str, output: str) -> str:
    """Return where in the house folder the folder lies that is printed into; '' where it lies elsewhere."""
    if not output:
        return ""
    place = os.path.relpath(os.path.realpath(output), os.path.realpath(root))
    return "" if place.startswith("..") or place == os.curdir else place.replace(os.sep, "/")


def _specs(root: str, folder: str, named: set[str], *, is_output: bool) -> dict[str, str]:
    """Return the specs of a folder; the photographs that dishes name are added to ``named``."""
    photographs = named if folder == "dishes" else None
    found = {}
    for name in _names(root, folder) or []:
        if is_output and name.endswith(".pdf"):
            continue
        is_text = os.path.splitext(name)[1].casefold() in _KEPT_AS_TEXT
        found[f"{folder}/{name}"] = digest_of(os.path.join(root, folder, name), photographs) if is_text else _NAME_ALONE
    return found


def _at_root(root: str, name: str) -> dict[str, str]:
    """Return what is read at the top of a house, and what is told there to be out of place."""
    path = os.path.join(root, name)
    if name == "house.yaml" or (name.startswith("words.") and name.endswith(".yaml")):
        return {name: digest_of(path)}
    if not os.path.isdir(path):
        told = name.casefold().endswith((".yaml", ".yml")) or name.casefold().startswith(("word", "house"))
        return {name: _NAME_ALONE} if told else {}
    from linebook.source.nearest import nearest  # here, because a house has few other folders

    meant = nearest(name, _FOLDERS)
    inside = _names(root, name) if meant else []
    return {name: _NAME_ALONE, **{f"{name}/{one}": _NAME_ALONE for one in inside or []}} if meant else {}


def _looks(root: str, taken: Callable[[str], str], *, is_output: bool) -> dict[str, str]:
    """Return the theme, templates and fonts of a house; a font is read where the theme has its name."""
    theme = _text_of(os.path.join(root, "templates", "theme.yaml"))
    written_otherwise = b"\\" in theme or b"''" in theme  # a name can then stand there in other letters
    found: dict[str, str] = {}
    for folder in ("", *_folders(root, "templates")):
        place = f"templates/{folder}" if folder else "templates"
        for name in _names(root, place) or []:
            path = os.path.join(root, place, name)
            is_look = not folder and name.endswith(_LOOKS)
            is_font = written_otherwise or os.fsencode(name) in theme
            if os.path.isdir(path) or not (is_look or is_font) or (is_output and name.endswith(".pdf")):
                continue
            found[f"{place}/{name}"] = digest_of(path) if is_look else taken(path)
    return found


def _led(path: str) -> str:
    """Return where a link leads at last, as seen from where it lies."""
    return f"to {os.path.relpath(os.path.realpath(path), os.path.realpath(os.path.dirname(path)))}"


def _folders(root: str, folder: str) -> list[str]:
    return [name for name in _names(root, folder) or [] if os.path.isdir(os.path.join(root, folder, name))]


def _photographs(text: bytes) -> Iterator[str]:
    """Yield the photographs that a dish names."""
    at = text.find(_PHOTOS)
    while at >= 0:
        end = at + len(_PHOTOS)
        while chr(text[end]).isalnum() or text[end : end + 1] in (b"-", b".") if end < len(text) else False:
            end += 1
        name = text[at:end].decode("latin-1")
        if name.endswith((".jpg", ".jpeg", ".png")):
            yield name
        at = text.find(_PHOTOS, end)


def _text_of(path: str) -> bytes:
    try:
        descriptor = os.open(path, _FLAGS)
    except OSError:
        return b""
    try:
        return os.read(descriptor, _MOST_SPEC_BYTES) if stat.S_ISREG(os.fstat(descriptor).st_mode) else b""
    except OSError:
        return b""
    finally:
        os.close(descriptor)
