"""A print that need not be made again: the record of what was made in a folder, and from what.

Owns the form of that record, which lies hidden among the PDFs, says what they hold and is as safe to delete as they.
It is believed only where every input and every PDF is what it was, and it is replaced together with them: so it can be
old, cut short, another run's or lost, and all that follows is that the work is done. It imports next to nothing, so
that a run with nothing to do is over at once. It reads no clock and prints nothing.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from hashlib import sha256
from typing import Final

from linebook.inputs import code_state, digest_of, digest_of_all, find_inputs

RECORD: Final = ".kept.txt"
_HEAD: Final = "# What linebook made here, and from what. Safe to delete: then it is made again.\n"
_MOST_BYTES: Final = 1_000_000
_OUTPUT: Final = ("-o", "--output")
_DEFAULT_OUTPUT: Final = "output"


class Asked:
    """What a run was asked, as typed: the record is only for the same words again."""

    def __init__(self, words: Sequence[str]) -> None:
        self.words = tuple(words)

    def output(self) -> str:
        """Return the folder to print into, as far as the words tell without being understood."""
        found = _DEFAULT_OUTPUT
        for word, after in zip(self.words, (*self.words[1:], ""), strict=True):
            if word in _OUTPUT:
                found = after
            elif word.startswith("--output="):
                found = word.partition("=")[2]
            elif word.startswith("-o") and len(word) > 2:
                found = word[2:]
        return found


class Made:
    """What was made and said: each PDF's digest by its name, the lines of warnings and the closing lines.

    ``house`` is the house folder as given, '' for the folder one stands in; ``chosen`` says that it was given, ``day``
    that the run took the day it was run on, '' where it was told one.
    """

    def __init__(
        self, house: str, day: str, files: dict[str, str], told: Sequence[str], said: Sequence[str], *, chosen: bool
    ) -> None:
        self.house, self.day, self.chosen = house, day, chosen
        self.files, self.told, self.said = files, tuple(told), tuple(said)


class Look:
    """One look at all that a print depends on: what each file is, what our code is, and one digest of both and more."""

    def __init__(self, asked: Asked, house: str, day: str) -> None:
        self.about = (asked.words, house, day)
        self.inputs = find_inputs(house, asked.output())
        self.code = code_state()
        self.state = digest_of_all(self.inputs, self.code, day, house, "\0".join(asked.words))


LOOKED: Final[list[Look]] = []
"""The look by which a run found out that there is something to do: it need not look once more before it begins."""


def written_record(state: str, made: Made) -> bytes | None:
    """Return the text of a record; None for what a line cannot hold, as the name of a folder with a line end in it."""
    lines = [
        f"state {state}",
        f"house {made.house}",
        f"chosen {'yes' if made.chosen else 'no'}",
        f"day {made.day}",
        *(f"file {digest} {name}" for name, digest in made.files.items()),
        *(f"told {line}" for text in made.told for line in text.split("\n")),
        *(f"said {line}" for line in made.said),
    ]
    if any("\n" in line or "\r" in line for line in lines):
        return None
    text = _HEAD + "".join(f"{line}\n" for line in lines)
    try:
        content = text.encode("utf-8")
    except UnicodeEncodeError:
        return None
    return content + f"check {sha256(content).hexdigest()}\n".encode()


def find_made(asked: Asked, today: str) -> Made | None:
    """Return what was made of the same words, where it is all there and would be made the same; None otherwise."""
    folder = asked.output()
    try:
        read = _read(os.path.join(folder, RECORD))
        if read is None:
            return None
        state, made = read
        if made.day not in ("", today) or not (made.chosen or made.house == _usual_house()):
            return None
        LOOKED[:] = [Look(asked, made.house, made.day)]
        if state != LOOKED[0].state:
            return None
    except (OSError, ValueError):  # whatever else may lie under that name, or befall the house meanwhile
        return None
    same = all(digest_of(os.path.join(folder, name)) == digest for name, digest in made.files.items())
    return made if same and made.files else None


def _usual_house() -> str:
    return "specs" if os.path.isdir("specs") else ""


def _read(path: str) -> tuple[str, Made] | None:
    """Return the state and what was made as a record tells them; None where it is not as it was written."""
    with open(path, "rb") as file:
        content = file.read(_MOST_BYTES + 1)
    body, check, digest = content.rpartition(b"check ")
    if not check or digest.decode("ascii") != f"{sha256(body).hexdigest()}\n":
        return None
    text = body.decode("utf-8")
    if not text.startswith(_HEAD):
        return None
    lines = [line.partition(" ")[::2] for line in text[len(_HEAD) :].split("\n")[:-1]]
    (_, state), (_, house), (_, chosen), (_, day), *rest = lines
    files = {name: digest for kind, words in rest if kind == "file" for digest, _, name in (words.partition(" "),)}
    told = [words for kind, words in rest if kind == "told"]
    said = [words for kind, words in rest if kind == "said"]
    return state, Made(house, day, files, told, said, chosen=chosen == "yes")
