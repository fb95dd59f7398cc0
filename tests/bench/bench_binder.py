"""What linebook costs, as ratios measured side by side: python tests/bench/bench_binder.py [--runs N] [--json FILE]

Every figure is a whole fresh process, imports included. The commands of a pair run one after the other in each
round and the ratio is taken within the round; the median of the rounds is printed, for wall and for processor time.
Small commands are compared with ``python -c pass``; binding the demo with drawing the same words on as many pages
in tables of flowing cells (``yardstick_cells.py``).
"""

import argparse
import compileall
import json
import os
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import NamedTuple

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
HOUSE = ROOT / "specs"
DATE = "2027-03-02"
MOST_LINES = 44
LINEBOOK = [sys.executable, "-m", "linebook"]
NOTHING = [sys.executable, "-c", "pass"]


class Run(NamedTuple):
    wall: float
    cpu: float


class Row(NamedTuple):
    name: str
    against: str
    wall: float
    cpu: float
    ratio: float
    cpu_ratio: float


def compile_sources():
    """Write the bytecode of this source, as installing does: the environment may keep Python from writing any."""
    compileall.compile_dir(ROOT / "src", quiet=1)


def own_environment(home):
    """Return an environment of this source, whose home folder holds all that is kept of a print."""
    return {**os.environ, "PYTHONPATH": str(ROOT / "src"), "HOME": str(home), "XDG_CACHE_HOME": str(home / ".cache")}


def timed(command, folder):
    """Run a command in an emptied folder and return its wall and processor seconds."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    environment = own_environment(folder)
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    start = time.perf_counter()
    done = subprocess.run(command, cwd=folder, env=environment, capture_output=True, check=False)
    wall = time.perf_counter() - start
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    if done.returncode:
        raise SystemExit(f"{' '.join(map(str, command))} failed:\n{done.stderr.decode()}")
    return Run(wall, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)


def paired(name, command, against_name, against, runs, folder):
    """Run two commands in turn ``runs`` times after one unmeasured round; compare them round by round."""
    rounds = [(timed(command, folder), timed(against, folder)) for _ in range(runs + 1)][1:]
    middle = statistics.median
    return Row(
        name,
        against_name,
        middle(own.wall for own, _ in rounds),
        middle(own.cpu for own, _ in rounds),
        middle(own.wall / other.wall for own, other in rounds),
        middle(own.cpu / other.cpu for own, other in rounds),
    )


def bound_words(folder):
    """Bind the demo once; return the words of all its pages, line by line, and how many PDFs there are."""
    import pypdfium2

    timed([*LINEBOOK, "bind", str(HOUSE), "-o", str(folder / "bound"), "--date", DATE], folder)
    pages = []
    files = sorted((folder / "bound").rglob("*.pdf"))
    for file in files:
        document = pypdfium2.PdfDocument(file)
        for page in document:
            lines = [line.split() for line in page.get_textpage().get_text_range().splitlines()]
            pages.append(merged([line for line in lines if line]))
        document.close()
    return pages, len(files)


def merged(lines):
    """Join neighbouring lines until no more are left than a page of cells takes."""
    while len(lines) > MOST_LINES:
        lines = [[word for line in lines[at : at + 2] for word in line] for at in range(0, len(lines), 2)]
    return lines


def check_same_words(words, pdf):
    """Make sure the yardstick really drew every word, on as many pages."""
    import pypdfium2

    document = pypdfium2.PdfDocument(pdf)
    drawn = ["".join(page.get_textpage().get_text_range().split()) for page in document]
    document.close()
    wanted = ["".join("".join(line) for line in page) for page in words]
    if len(drawn) != len(wanted):
        raise SystemExit(f"the yardstick has {len(drawn)} pages, the binders have {len(wanted)}")
    for number, (page, want) in enumerate(zip(drawn, wanted, strict=True), 1):
        if sorted(page.replace("\xad", "-").replace("\u0002", "-")) != sorted(want.replace("\u0002", "-")):
            raise SystemExit(f"page {number} of the yardstick has not the same letters as page {number} of the binders")


def first_component():
    return sorted(path.stem for path in (HOUSE / "components").glob("*.md"))[0]


def measure(runs):
    compile_sources()
    with tempfile.TemporaryDirectory() as place:
        folder, kept = Path(place) / "run", Path(place) / "kept"
        kept.mkdir()
        words, _ = bound_words(folder)
        source = kept / "words.json"
        source.write_text(json.dumps(words), encoding="utf-8")
        yardstick = [sys.executable, str(HERE / "yardstick_cells.py"), str(source)]
        subprocess.run([*yardstick, str(kept / "cells.pdf")], check=True)
        check_same_words(words, kept / "cells.pdf")
        out = str(folder / "out")
        card = [
            *LINEBOOK,
            "batch",
            first_component(),
            "--house",
            str(HOUSE),
            "--covers",
            "110",
            "--date",
            DATE,
            "-o",
            out + ".pdf",
        ]
        bind = [*LINEBOOK, "bind", str(HOUSE), "-o", out, "--date", DATE]
        plain = ("python -c pass", NOTHING, runs, folder)
        rows = [
            paired("linebook --help", [*LINEBOOK, "--help"], *plain),
            paired("linebook check", [*LINEBOOK, "check", str(HOUSE)], *plain),
            paired("linebook batch", card, *plain),
            paired("linebook bind", bind, "cells", [*yardstick, str(folder / "cells.pdf")], runs, folder),
        ]
    return rows, len(words)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--runs", type=int, default=7, help="paired rounds (7 or more for a figure to keep)")
    parser.add_argument("--json", type=Path, help="write the figures here too")
    options = parser.parse_args()
    rows, pages = measure(options.runs)
    print(f"{pages} pages in the demo; medians of {options.runs} paired rounds")
    print(f"{'command':<18}{'against':<18}{'wall s':>8}{'ratio':>8}{'cpu s':>8}{'ratio':>8}")
    for row in rows:
        figures = f"{row.wall:>8.3f}{row.ratio:>8.2f}{row.cpu:>8.3f}{row.cpu_ratio:>8.2f}"
        print(f"{row.name:<18}{row.against:<18}{figures}")
    if options.json:
        options.json.write_text(json.dumps([row._asdict() for row in rows], indent=2), encoding="utf-8")


if __name__ == "__main__":
    main()
