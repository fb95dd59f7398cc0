"""A large house, as ratios measured side by side: python tests/bench/bench_large.py [--runs N] [--memory] [--json FILE]

The house is the demo's specs four times over (``large_house.py``): 360 dishes and components, 8 lines, over 500 pages.
In each round every row runs once, as a whole fresh process, one after the other; ratios are taken within the round and
their median is printed. Each row says how many processors it may use.

P is the same words on as many pages in tables of flowing cells (``yardstick_cells.py``), drawing only; the peer draws
them with Typst, from its wheel (``pip install -e '.[bench]'``). Of a run that prints again, what was printed before is
in the folder. ``--memory`` draws 4,000 pages once both ways and compares the peaks, which takes minutes.
"""

import argparse
import contextlib
import json
import os
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from importlib.util import find_spec
from pathlib import Path

from bench_binder import (
    DATE,
    HERE,
    HOUSE,
    LINEBOOK,
    NOTHING,
    check_same_words,
    compile_sources,
    merged,
    own_environment,
)
from large_house import write_large_house

TIMES = 4
MANY = 31
"""How many times the demo's house is about 4,000 pages."""
WORDS = (10_000, 100_000)
CORES = sorted(os.sched_getaffinity(0))


def spent(command, folder, cores=2):
    """Run a command on so many processors and return its wall seconds."""
    environment = own_environment(folder)
    os.sched_setaffinity(0, CORES[:cores])  # what is started inherits it
    try:
        start = time.perf_counter()
        done = subprocess.run(command, cwd=folder, env=environment, capture_output=True, check=False)
        wall = time.perf_counter() - start
    finally:
        os.sched_setaffinity(0, CORES)
    if done.returncode:
        raise SystemExit(f"{' '.join(map(str, command))} failed:\n{done.stderr.decode()}")
    return wall


def peak_of(command, folder):
    """Return the most memory, in MB, that a command's largest process had; it runs under one that waits for it."""
    code = (
        "import resource,subprocess,sys;subprocess.run(sys.argv[1:],check=True,stdout=subprocess.DEVNULL);"
        "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)"
    )
    environment = own_environment(folder)
    done = subprocess.run(
        [sys.executable, "-c", code, *command], cwd=folder, env=environment, capture_output=True, check=True
    )
    return int(done.stdout) / 1024


def printed_words(folder):
    """Return the words of every page of the PDFs in a folder, as the yardstick takes them."""
    import pypdfium2

    pages = []
    for file in sorted(folder.glob("*.pdf")):
        with contextlib.closing(pypdfium2.PdfDocument(file)) as document:
            for page in document:
                lines = [line.split() for line in page.get_textpage().get_text_range().splitlines()]
                pages.append(merged([line for line in lines if line]))
    return pages


class Bench:
    """The house, its prints and the yardstick's words, in a folder of their own."""

    def __init__(self, place, times):
        self.place = place
        self.house, self.out, self.empty = place / "house", place / "out", place / "home"
        self.empty.mkdir()
        self.house.mkdir()
        self.specs = write_large_house(HOUSE, self.house, times)
        self.words = place / "words.json"

    def bind(self, *more):
        return [*LINEBOOK, "bind", str(self.house), "--date", DATE, "-o", str(self.out), *more]

    def yardstick(self, name):
        return [sys.executable, str(HERE / f"{name}.py"), str(self.words), str(self.place / f"{name}.pdf")]

    def prepare(self):
        """Bind once, and take the words of all pages for the others to draw; return how many pages those are."""
        compile_sources()
        spent(self.bind(), self.empty)
        pages = printed_words(self.out)
        self.words.write_text(json.dumps(pages), "utf-8")
        return pages

    def cold(self, cores):
        """Time a print where there is none yet, and nothing is kept of one."""
        for folder in (self.out, self.empty / ".cache"):
            shutil.rmtree(folder, ignore_errors=True)
        return spent(self.bind(), self.empty, cores)

    def changed(self, number):
        """Time a print after the wording of one dish that is printed was changed since the last."""
        return self._edited(
            "dishes/short-rib-celeriac.md",
            lambda text: text.replace("## Pick-up\n", f"## Pick-up\n1. Say {number} aloud.\n", 1),
        )

    def amount(self, number):
        """Time a print after an amount of one component was changed since the last: every batch under it is another."""

        def more(typed):
            return f"amount: {int(typed[1]) + number + 1}"

        return self._edited("components/rhubarb-compote.md", lambda text: re.sub(r"amount: (\d+)", more, text, count=1))

    def _edited(self, card, change):
        card = self.house / card
        text = card.read_text("utf-8")
        assert change(text) != text
        card.write_text(change(text), "utf-8")
        took = spent(self.bind(), self.empty)
        card.write_text(text, "utf-8")
        spent(self.bind(), self.empty)
        return took


def measure(bench, runs):
    """Return each row's name, processors and seconds in every round."""
    rows = {"python -c pass": 1, "P, tables of flowing cells": 1}
    if find_spec("typst"):
        rows["Typst, the same words"] = 2
    rows |= {"bind, cold, two": 2, "bind, cold, one": 1, "bind, one dish changed": 2}
    rows |= {"bind, one amount changed": 2, "bind, nothing changed": 2}
    found = {name: [] for name in rows}
    for number in range(runs):
        found["python -c pass"].append(spent(NOTHING, bench.empty))
        found["P, tables of flowing cells"].append(spent(bench.yardstick("yardstick_cells"), bench.empty, 1))
        if "Typst, the same words" in found:
            found["Typst, the same words"].append(spent(bench.yardstick("peer_typst"), bench.empty))
        found["bind, cold, one"].append(bench.cold(1))
        found["bind, cold, two"].append(bench.cold(2))
        found["bind, one dish changed"].append(bench.changed(number))
        found["bind, one amount changed"].append(bench.amount(number))
        found["bind, nothing changed"].append(spent(bench.bind(), bench.empty))
    return rows, found


def show(rows, found):
    """Print a line for each row: processors, seconds, and the ratios to P and to a process that does nothing."""
    print(f"{'run':<30}{'processors':>11}{'seconds':>9}{'of P':>8}{'of pass':>9}")
    yardstick, nothing = found["P, tables of flowing cells"], found["python -c pass"]
    middle = statistics.median
    for name, cores in rows.items():
        ratios = [middle(a / b for a, b in zip(found[name], other, strict=True)) for other in (yardstick, nothing)]
        print(f"{name:<30}{cores:>11}{middle(found[name]):>9.3f}{ratios[0]:>8.2f}{ratios[1]:>9.1f}")
    pairs = zip(found["bind, cold, one"], found["bind, cold, two"], strict=True)
    print(f"one processor takes {middle(one / two for one, two in pairs):.2f} times as long as two")


def long_field(place):
    """Return the seconds it takes to print a card with a step of 10,000 words, and of 100,000; '' where refused."""
    took = {}
    for words in WORDS:
        house = place / f"words-{words}"
        subprocess.run([*LINEBOOK, "new", str(house)], check=True, capture_output=True, cwd=place)
        dish = sorted((house / "dishes").glob("*.md"))[0]
        text = dish.read_text("utf-8")
        step = " ".join(["stir", "slowly", "and", "taste"] * (words // 4))
        dish.write_text(text.replace("## Pick-up\n", f"## Pick-up\n1. {step}.\n", 1), "utf-8")
        start = time.perf_counter()
        done = subprocess.run(
            [*LINEBOOK, "bind", str(house), "-o", str(place / "long")], check=False, capture_output=True, cwd=place
        )
        took[words] = time.perf_counter() - start
        if done.returncode:
            return f"refused: {done.stderr.decode().splitlines()[0]}"
    return f"{took[WORDS[1]] / took[WORDS[0]]:.1f} times as long as one of {WORDS[0]:,}"


def memory(place):
    """Print the peaks of drawing about 4,000 pages both ways."""
    folder = place / "many"
    folder.mkdir()
    bench = Bench(folder, MANY)
    pages = len(bench.prepare())
    own = peak_of([*bench.bind(), "--no-cache"], bench.empty)
    cells = peak_of(bench.yardstick("yardstick_cells"), bench.empty)
    print(f"{pages} pages: {own:.0f} MB in bind's largest process, {cells:.0f} MB for P: {own / cells:.2f}")


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--runs", type=int, default=5, help="rounds (5 or more for a figure to keep)")
    parser.add_argument("--memory", action="store_true", help="the peaks at 4,000 pages too: minutes")
    parser.add_argument("--json", type=Path, help="write the seconds of every round here too")
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as held:
        place = Path(held)
        large = place / "large"
        large.mkdir()
        bench = Bench(large, TIMES)
        pages = bench.prepare()
        subprocess.run(bench.yardstick("yardstick_cells"), check=True)
        check_same_words(pages, bench.place / "yardstick_cells.pdf")
        print(f"{bench.specs} specs, {len(pages)} pages; medians of {options.runs} rounds")
        rows, found = measure(bench, options.runs)
        show(rows, found)
        print(f"a step of {WORDS[1]:,} words: {long_field(place)}")
        if options.memory:
            memory(place)
    if options.json:
        options.json.write_text(json.dumps(found, indent=2), encoding="utf-8")


if __name__ == "__main__":
    main()
