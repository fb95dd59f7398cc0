"""Reads the code of PDF pages: which operators set a colour, and what is filled with which grey over what area."""

from io import BytesIO
from typing import NamedTuple

from pypdf import PdfReader
from pypdf.generic import ContentStream

COLOURED = frozenset({"rg", "RG", "k", "K", "cs", "CS", "sc", "SC", "scn", "SCN", "sh"})
"""Every operator of PDF 32000-1, table 74, that can set another colour space than DeviceGray, and the shadings."""

_FILLING = frozenset({"f", "F", "f*", "B", "B*", "b", "b*"})


class Fill(NamedTuple):
    grey: float
    width: float
    height: float


def operators(data):
    """All operators of all pages, with their operands."""
    reader = PdfReader(BytesIO(data))
    return [
        (name.decode(), operands)
        for page in reader.pages
        for operands, name in ContentStream(page.get_contents(), reader).operations
    ]


def coloured(data):
    """The operators that set a colour which is not a grey."""
    return sorted({name for name, _ in operators(data)} & COLOURED)


def fills(data):
    """Every filled path with its grey and the size of its box in its own units; pages in grey alone."""
    found = []
    greys, points, scales = [0.0], [], [1.0]
    for name, operands in operators(data):
        numbers = [float(one) for one in operands] if name not in {"Tj", "TJ", "Tf", "d", "gs", "Do"} else []
        if name == "q":
            greys.append(greys[-1])
            scales.append(scales[-1])
        elif name == "Q":
            greys.pop()
            scales.pop()
        elif name == "cm":
            scales[-1] *= abs(numbers[0])
        elif name == "g":
            greys[-1] = numbers[0]
        elif name in {"m", "l", "c"}:
            points += [(numbers[at], numbers[at + 1]) for at in range(0, len(numbers), 2)]
        elif name == "re":
            x, y, width, height = numbers
            points += [(x, y), (x + width, y + height)]
        elif name in _FILLING:
            across, along = zip(*points, strict=True)
            size = scales[-1]
            found.append(Fill(greys[-1], (max(across) - min(across)) * size, (max(along) - min(along)) * size))
            points = []
        elif name in {"S", "s", "n"}:
            points = []
    return found
