"""The table behind the square code in a sheet's foot, made by segno.

Run by hand: ``python tests/unit/pdf/square_code_table.py`` prints what ``linebook/pdf/square_table.py`` holds. In a code of
one version, level and mask every module is a sum, without carry, of bits of what it says (Reed-Solomon codes are linear);
so one code of eight zeros, and for each bit what it turns over, are all codes of eight letters and digits.
"""

from __future__ import annotations

import segno

LETTERS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"
"""ISO/IEC 18004's alphanumeric mode: two characters are 45 times the first, plus the second, in eleven bits."""

MASK = 4


def modules(text: str) -> int:
    """Return the modules of the code of a text, row by row from the top left, as one number."""
    code = segno.make(text, version=1, error="h", mask=MASK, mode="alphanumeric", boost_error=False, micro=False)
    return int("".join(str(bit) for row in code.matrix for bit in row), 2)


def table() -> tuple[int, ...]:
    """Return the code of eight zeros, and after it what each bit of what is said turns over, the highest bit first."""
    none = modules("0" * 8)
    flips = []
    for pair in range(4):
        for bit in range(10, -1, -1):
            first, second = divmod(1 << bit, len(LETTERS))
            text = ["00"] * 4
            text[pair] = LETTERS[first] + LETTERS[second]
            flips.append(none ^ modules("".join(text)))
    return (none, *flips)


if __name__ == "__main__":
    for number in table():
        print(f"{number:0111x}")
