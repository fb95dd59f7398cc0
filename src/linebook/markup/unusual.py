"""What leads off the quick ways to read a sheet: the sign that they raise, and the characters no sheet may hold."""

from __future__ import annotations

import re
from typing import Final

UNUSUAL: Final = re.compile("[\x00-\x08\x0b-\x1f\ud800-\udfff\ufffe\uffff]")
"""Characters that XML has not, and line ends that it reads as others."""


class NotPlain(Exception):
    """Something that is to be read with more care."""
