"""A long hunt by hand: ``python tests/robust/hunt.py FIRST LAST [HOUSE…]`` spoils that many of each house and tells each kind of failure once."""

from __future__ import annotations

import sys
import tempfile
import time
import traceback
from collections import Counter
from pathlib import Path

from house_mutations import HOUSES, spoil, try_house, write_house

SLOW = 10.0


def hunt(house: str, seeds: range, folder: Path) -> Counter[str]:
    """Return what came of the spoiled houses; print the first seed of each kind of failure."""
    outcomes: Counter[str] = Counter()
    for seed in seeds:
        texts, done = spoil(house, seed)
        try:
            write_house(texts, folder)
        except (OSError, UnicodeEncodeError):
            continue
        began = time.monotonic()
        try:
            outcome = try_house(folder)
        except Exception as error:
            places = traceback.extract_tb(error.__traceback__)
            where = " < ".join(f"{Path(place.filename).name}:{place.lineno}" for place in reversed(places[-3:]))
            outcome = f"FAILED {type(error).__name__} {where}"
            if outcome not in outcomes:
                print(f"{house} {seed}: {outcome}: {str(error)[:200]!r} {done}", flush=True)
        took = time.monotonic() - began
        if took > SLOW:
            print(f"{house} {seed}: {took:.1f} s {outcome} {done}", flush=True)
        outcomes[outcome] += 1
    return outcomes


if __name__ == "__main__":
    first, last, *names = sys.argv[1:]
    with tempfile.TemporaryDirectory() as temporary:
        for name in names or HOUSES:
            counted = hunt(name, range(int(first), int(last)), Path(temporary) / "kitchen")
            print(name, dict(counted.most_common()), flush=True)
