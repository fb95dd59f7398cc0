"""The spec files of a house folder: which there are, and their text. The only module of ``source`` that opens files.

Nothing is read through a link that leads out of the house, nor from anything but a regular file of sensible size.
"""

from __future__ import annotations

import os
import re
import stat
from functools import lru_cache
from pathlib import Path, PurePosixPath
from typing import BinaryIO, Final

from linebook.source.characters import find_refused_characters, is_ordinary_utf8
from linebook.source.codes import fault
from linebook.source.faults import Fault, Outcome
from linebook.source.frozen import frozen
from linebook.source.nearest import nearest
from linebook.source.spans import SourceFile

MOST_BYTES: Final = 1_000_000
MOST_FILES: Final = 5_000
HOUSE_FILE: Final = "house.yaml"
FOLDERS: Final = {"pantry": ".yaml", "menus": ".yaml", "dishes": ".md", "components": ".md"}

# Without O_NONBLOCK a named pipe would wait for a writer for ever.
_FLAGS: Final = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_CLOEXEC", 0) | getattr(os, "O_BINARY", 0)

_IGNORED: Final = frozenset({"thumbs.db", "desktop.ini"})
_KINDS: Final = {".yaml": (".yml", ".yaml"), ".md": (".markdown", ".mdown", ".mkd", ".md")}
_TRANSLATION: Final = re.compile(r"(?P<stem>.+)\.(?P<language>[A-Za-z]{2}(?:[-_][A-Za-z]{2})?|eng|esp|spa)\.md")
_WORDS_FILE: Final = re.compile(r"words\.[A-Za-z]{2}\.yaml")
_NEAR_WORDS: Final = r"words?(?:[._-][A-Za-z]{2})?\.(?:ya?ml|md|txt)"
_FORM: Final = r"---\s|(?:#[^\n]*\n|\s)*[a-z0-9_-]+:\s"


@frozen
class SpecFiles:
    """Paths in the house folder, each group sorted by name. ``house`` is None where the file is missing.

    ``misnamed`` are specs that are not read for the ending of their names, and that other files may rely on.
    ``translations`` are dishes and components in another language, ``words`` the names of the house in one.
    """

    house: PurePosixPath | None
    pantry: tuple[PurePosixPath, ...] = ()
    menus: tuple[PurePosixPath, ...] = ()
    dishes: tuple[PurePosixPath, ...] = ()
    components: tuple[PurePosixPath, ...] = ()
    misnamed: tuple[PurePosixPath, ...] = ()
    translations: tuple[PurePosixPath, ...] = ()
    words: tuple[PurePosixPath, ...] = ()


def split_translation(name: str) -> tuple[str, str] | None:
    """Return the stem and the language of a file such as ``short-rib.es.md``; None for any other name."""
    found = _TRANSLATION.fullmatch(name) if name.count(".") > 1 else None
    return (found["stem"], found["language"]) if found else None


def read_source(root: Path, relative: PurePosixPath, shown: str) -> Outcome[SourceFile]:
    """Return the text of a file of the house folder ``root``; ``shown`` is how people know that folder.

    Faults: LB113 (leads out of the house), LB115 (cannot be opened), LB110 (over 1 MB), LB111 (not UTF-8), LB104
    (characters that cannot be printed). A byte order mark is left out.
    """
    path = show_path(shown, relative)
    try:
        target = _inside(root, relative)
        content = _read_bytes(target) if target else None
    except (OSError, ValueError, RuntimeError) as error:
        return _refused("LB115", path, _reason(error), "check that the file is there and may be read")
    if target is None:
        return _refused("LB113", path, "this file leads out of the house folder", "put the file itself in the folder")
    if content is None:
        return _refused("LB115", path, "this is not a plain file", "put a text file here")
    if len(content) > MOST_BYTES:
        return _refused("LB110", path, "this file is over 1 MB", "split it, or check that it is a spec")
    return _decode(path, content)


def open_inside(root: Path, relative: PurePosixPath) -> BinaryIO | None:
    """Return a file of the house opened for its bytes, or None where it leads out of the house.

    Raises OSError where it cannot be opened, is no plain file, or is there under a name in other letters alone.
    """
    target = _inside(root, relative)
    if target is None:
        return None
    if relative.name not in os.listdir((root / relative).parent):
        raise FileNotFoundError(relative.name)
    descriptor = os.open(target, _FLAGS)
    opened = os.fdopen(descriptor, "rb")
    if not stat.S_ISREG(os.fstat(descriptor).st_mode):
        opened.close()
        raise OSError(relative.name)
    return opened


def list_folder(root: Path, folder: PurePosixPath) -> tuple[str, ...]:
    """Return the names in a folder of the house, sorted; none where it cannot be listed or leads out."""
    try:
        target = _inside(root, folder)
        return tuple(sorted(os.listdir(target))) if target else ()
    except (OSError, ValueError, RuntimeError):
        return ()


def find_spec_files(root: Path, shown: str = "") -> Outcome[SpecFiles]:
    """Return the spec files of a house folder.

    Faults: LB114 (no house.yaml), LB115 (a folder cannot be opened), LB116 (a file that is not read, a warning), LB119
    (a spec that is not read for its ending), LB110 (too many files). Hidden files are passed over.
    """
    faults: list[Fault] = []
    names = _list(root, PurePosixPath(), shown, faults)
    if names is None:
        return Outcome(value=None, faults=tuple(faults))
    house = PurePosixPath(HOUSE_FILE) if HOUSE_FILE in names else None
    if house is None:
        faults.append(_no_house(names, shown))
    misnamed: list[PurePosixPath] = []
    faults.extend(_stray_at_root(root, names, shown, misnamed))
    found = {folder: _find(root, folder, shown, faults, misnamed) if folder in names else () for folder in FOLDERS}
    translations = tuple(
        path for folder in ("dishes", "components") for path in found[folder] if split_translation(path.name)
    )
    if translations:
        found |= {folder: tuple(path for path in paths if path not in translations) for folder, paths in found.items()}
    words = tuple(PurePosixPath(name) for name in names if _WORDS_FILE.fullmatch(name))
    files = SpecFiles(house=house, **found, misnamed=tuple(misnamed), translations=translations, words=words)
    return Outcome(value=files, faults=tuple(faults))


def leads_out(root: Path, relative: PurePosixPath) -> bool:
    """Return whether a file or folder of the house is a link that leads out of it, or in a circle."""
    try:
        return _inside(root, relative) is None
    except (OSError, RuntimeError):
        return True


def show_path(shown: str, relative: PurePosixPath) -> str:
    """Return a path for people: the folder as they know it and the file in it, what cannot be printed as ``?``."""
    path = str(_folder(shown) / relative)
    return path if path.isprintable() else "".join(letter if letter.isprintable() else "?" for letter in path)


@lru_cache(maxsize=4)
def _folder(shown: str) -> PurePosixPath:
    """Return the folder that people know by these words: found once for all files in it."""
    return PurePosixPath(shown)


def _inside(root: Path, relative: PurePosixPath) -> str | None:
    """Return the path of a file or folder of the house, None where it leads out.

    Only where a folder or file on the way is a link must it be followed, which takes long.
    """
    if relative.is_absolute() or ".." in relative.parts:
        return None
    place = str(root)
    for part in relative.parts:
        place = os.path.join(place, part)
        if os.path.islink(place):
            house = root.resolve()
            target = (house / relative).resolve()
            return str(target) if target.is_relative_to(house) else None
    return place


def _read_bytes(target: str) -> bytes | None:
    descriptor = os.open(target, _FLAGS)
    try:
        status = os.fstat(descriptor)
        if stat.S_ISDIR(status.st_mode):
            raise IsADirectoryError
        if not stat.S_ISREG(status.st_mode):
            return None
        # Asked for its size first, because room for all that is asked for is made before anything is read.
        size = status.st_size
        content = os.read(descriptor, min(size, MOST_BYTES) + 1)
        if len(content) == size > 0:
            return content  # there was no byte more
        while len(content) <= MOST_BYTES and (more := os.read(descriptor, MOST_BYTES)):
            content += more  # it has grown since, or has no size to tell
        return content
    finally:
        os.close(descriptor)


def _decode(path: str, content: bytes) -> Outcome[SourceFile]:
    if content.startswith(b"\xef\xbb\xbf"):
        content = content[3:]
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError as error:
        sound = content[: error.start].decode("utf-8")
        source = SourceFile(path=path, text=sound + content[error.start :].decode("utf-8", errors="replace"))
        wide = content[:2] in (b"\xff\xfe", b"\xfe\xff")
        message = "this file is saved as UTF-16" if wide else "this file is not saved as UTF-8"
        at = source.span(len(sound), len(sound) + 1)
        return Outcome(value=None, faults=(fault("LB111", message, at, hints=("save it again as UTF-8",)),))
    if is_ordinary_utf8(content):
        return Outcome(value=SourceFile(path=path, text=text, is_ordinary=True))
    source = SourceFile(path=path, text=text)
    faults = find_refused_characters(source, 0, len(text))
    return Outcome(value=None if faults else source, faults=faults)


def _refused(code: str, path: str, message: str, hint: str) -> Outcome[SourceFile]:
    return Outcome(value=None, faults=(_file_fault(code, path, message, hint),))


def _file_fault(code: str, path: str, message: str, hint: str) -> Fault:
    return fault(code, message, SourceFile(path=path, text="").whole(), hints=(hint,))


def _reason(error: Exception) -> str:
    if isinstance(error, FileNotFoundError):
        return "this file is not there"
    if isinstance(error, PermissionError):
        return "this file may not be read"
    if isinstance(error, IsADirectoryError):
        return "this is a folder, not a file"
    return "this file cannot be opened"


def _list(root: Path, folder: PurePosixPath, shown: str, faults: list[Fault]) -> list[str] | None:
    path = show_path(shown, folder)
    try:
        target = _inside(root, folder)
        if target is None:
            faults.append(
                _file_fault("LB113", path, "this folder leads out of the house", "put the folder itself here")
            )
            return None
        names = sorted(os.listdir(target))
    except NotADirectoryError:
        faults.append(_file_fault("LB115", path, "this is not a folder", "make it a folder, or take it away"))
    except FileNotFoundError:
        faults.append(_file_fault("LB115", path, "this folder is not there", "check the name of the house folder"))
    except (OSError, ValueError, RuntimeError):
        faults.append(_file_fault("LB115", path, "this folder cannot be opened", "check that it may be read"))
    else:
        return [name for name in names if not _is_passed_over(name)]
    return None


def _folders_in(place: str) -> frozenset[str]:
    """Return the names of the folders in a folder, and of the links to one, without asking about each file."""
    try:
        with os.scandir(place) as entries:
            return frozenset(entry.name for entry in entries if _is_folder(entry))
    except OSError:
        return frozenset()


def _is_folder(entry: os.DirEntry[str]) -> bool:
    try:
        return entry.is_dir()
    except OSError:
        return False


def _is_passed_over(name: str) -> bool:
    return name.startswith((".", "~$")) or name.endswith("~") or name.casefold() in _IGNORED


def _find(
    root: Path, folder: str, shown: str, faults: list[Fault], misnamed: list[PurePosixPath]
) -> tuple[PurePosixPath, ...]:
    inside = PurePosixPath(folder)
    names = _list(root, inside, shown, faults) or []
    folders = _folders_in(os.path.join(root, folder)) if names else frozenset()
    suffix = FOLDERS[folder]
    found = []
    for name in names:
        path = inside / name
        if name in folders:
            message = f"the folder `{name}` inside {folder} is not read"
            faults.append(_file_fault("LB116", show_path(shown, path), message, f"move its files to {folder}"))
        elif suffix == ".yaml" and _WORDS_FILE.fullmatch(name):
            faults.append(_misnamed_words(path, shown))
        elif name.endswith(suffix):
            found.append(path)
        elif _is_spec(root, path, suffix):
            message = f"`{name}` is not read, because specs here end in `{suffix}`"
            hint = f"rename it to `{path.stem.removesuffix(suffix)}{suffix}`"
            faults.append(_file_fault("LB119", show_path(shown, path), message, hint))
            misnamed.append(path)
        else:
            faults.append(_stray(path, suffix, shown))
    if len(found) > MOST_FILES:
        message = f"{folder} holds more than {MOST_FILES} files"
        faults.append(_file_fault("LB110", show_path(shown, PurePosixPath(folder)), message, "split the house"))
        return ()
    return tuple(found)


def _is_spec(root: Path, path: PurePosixPath, suffix: str) -> bool:
    """Return whether a file is a spec under a wrong ending; a text file is one where it has the form of one."""
    if path.suffix.casefold() != ".txt":
        return path.suffix.casefold() in _KINDS[suffix]
    opened = read_source(root, path, "")
    return opened.value is not None and re.match(_FORM, opened.value.text) is not None


def _stray(path: PurePosixPath, suffix: str, shown: str) -> Fault:
    hint = f"files here end in `{suffix}`; move it out of the house folder, or rename it if it is a spec"
    return _file_fault("LB116", show_path(shown, path), f"`{path.name}` is not read", hint)


def _stray_at_root(root: Path, names: list[str], shown: str, misnamed: list[PurePosixPath]) -> list[Fault]:
    faults: list[Fault] = []
    for name in names:
        path = show_path(shown, PurePosixPath(name))
        if name in FOLDERS or name == HOUSE_FILE or _WORDS_FILE.fullmatch(name):
            continue
        if (root / name).is_dir():
            meant = nearest(name, FOLDERS)
            if meant and meant not in names:
                message = f"the folder `{name}` is not read"
                inside = _list(root, PurePosixPath(name), shown, faults) or []
                specs = [PurePosixPath(name) / file for file in inside if file.endswith(FOLDERS[meant])]
                code = "LB119" if specs else "LB116"
                faults.append(_file_fault(code, path, message, f"rename it to `{meant}`"))
                misnamed.extend(specs)
        elif HOUSE_FILE in names and re.fullmatch(_NEAR_WORDS, name):
            faults.append(_misnamed_words(PurePosixPath(name), shown))
        elif name.casefold().endswith((".yaml", ".yml")) and HOUSE_FILE in names:
            hint = "move it to pantry or menus, or out of the house folder"
            faults.append(_file_fault("LB116", path, f"`{name}` is not read", hint))
    return faults


def _misnamed_words(path: PurePosixPath, shown: str) -> Fault:
    """Return the fault of the names in another language in a file that is not called as they must be."""
    language = next((part for part in re.split(r"[._-]", path.name.casefold()) if len(part) == 2), "es")
    message = f"`{path.name}` is not read, because names in another language stand in `words.{language}.yaml`"
    mend = f"rename it to `words.{language}.yaml`" + (" and put it beside house.yaml" if len(path.parts) > 1 else "")
    return _file_fault("LB119", show_path(shown, path), message, mend)


def _no_house(names: list[str], shown: str) -> Fault:
    path = show_path(shown, PurePosixPath(HOUSE_FILE))
    close = [name for name in names if name.casefold() in ("house.yaml", "house.yml", "house.yaml.txt", "house.txt")]
    hint = (
        f"rename `{close[0]}` to `{HOUSE_FILE}`"
        if close
        else "give the folder that holds house.yaml, or put the file back"
    )
    return _file_fault("LB114", path, f"the house folder has no {HOUSE_FILE}", hint)
