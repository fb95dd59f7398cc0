"""What a print costs that was made before, as ratios measured side by side: python tests/bench/bench_again.py [--runs N]

Whole fresh processes but for the last row, where one process prints again after one dish is saved, as `watch` does.
Each pair runs one after the other in each round; the median of the rounds is printed.
"""

import argparse
import gc
import os
import shutil
import statistics
import sys
import tempfile
import time
from datetime import date
from pathlib import Path

from bench_binder import DATE, HOUSE, LINEBOOK, NOTHING, timed


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--runs", type=int, default=9, help="rounds (9 or more for a figure to keep)")
    runs = parser.parse_args().runs
    with tempfile.TemporaryDirectory() as place:
        empty, out, house = Path(place) / "empty", Path(place) / "out", Path(place) / "specs"
        shutil.copytree(HOUSE, house)
        bind = [*LINEBOOK, "bind", str(house), "--date", DATE, "-o", str(out)]
        anew = [*bind, "--no-cache"]
        timed(bind, empty)
        rounds = []
        for _ in range(runs):
            row = [timed(command, empty).wall for command in (NOTHING, bind, anew)]
            rounds.append((*row, saved_again(house, out)))
    columns = [[row[at] for row in rounds] for at in range(4)]
    print(f"medians of {runs} rounds")
    print(f"{'run':<34}{'seconds':>9}{'against python -c pass':>25}{'against --no-cache':>21}")
    names = ("python -c pass", "bind, nothing changed", "bind --no-cache", "watch, one dish saved")
    for name, column in zip(names, columns, strict=True):
        ratios = [statistics.median(a / b for a, b in zip(column, columns[at], strict=True)) for at in (0, 2)]
        print(f"{name:<34}{statistics.median(column):>9.3f}{ratios[0]:>25.2f}{ratios[1]:>21.3f}")


def saved_again(house, out):
    """Print as `watch` does in this process, save a dish with other words, and time the print that follows."""
    import click

    gc.set_threshold(2_000_000)  # as the command line sets it
    from linebook.cli import watch

    given = {"house_folder": str(house), "output": out, "menu": None, "day": date.fromisoformat(DATE)}
    dish = sorted((house / "dishes").glob("*.md"))[0]
    text = dish.read_text("utf-8")
    with click.Context(watch.command) as context:
        watch.print_once(context, house, "specs", given)
        dish.write_text(text.replace("name: ", "name: New ", 1), "utf-8")
        start = time.perf_counter()
        sound = watch.print_once(context, house, "specs", given)
        took = time.perf_counter() - start
    dish.write_text(text, "utf-8")
    # The prints are again those of the house as it was, so that the next round finds nothing changed.
    timed([*LINEBOOK, "bind", str(house), "--date", DATE, "-o", str(out)], out.parent / "empty")
    if not sound:
        raise SystemExit("not printed")
    return took


if __name__ == "__main__":
    sys.path.insert(0, os.fspath(Path(__file__).resolve().parents[2] / "src"))
    main()
