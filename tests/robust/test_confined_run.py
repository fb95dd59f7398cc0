"""A run reads the house and the program, writes the output folder and what it keeps, and does nothing else; files lying about are not executed.

What cannot be prevented from inside: Python itself runs ``sitecustomize`` and what ``PYTHONPATH``, ``PYTHONSTARTUP`` or a
``.pth`` file of its own installation name, before linebook begins; and ``python -m linebook``, unlike the installed
``linebook``, looks for modules in the folder one stands in first, unless it is run with ``-P``. Who can write there can run anything.
"""

from __future__ import annotations

import json
import os
import site
import subprocess
import sys
import sysconfig
from pathlib import Path

import pytest
from house_mutations import REPOSITORY, STARTER, texts_of, write_house

DRIVER = Path(__file__).with_name("watched_run.py")
PROGRAM = (
    *(sys.prefix, sys.base_prefix, sys.exec_prefix, *site.getsitepackages(), *sysconfig.get_paths().values()),
    *(str(REPOSITORY / "src"), str(REPOSITORY / "templates"), str(DRIVER)),
)
FONTS = ("/usr/share/fonts", "/usr/local/share/fonts")
TRAPS = (
    *(
        "yaml",
        "jinja2",
        "click",
        "reportlab",
        "reportlab_settings",
        "reportlab_mods",
        "local_rl_mods",
        "local_reportlab_settings",
    ),
    *(
        "rlextra",
        "pint",
        "markdown_it",
        "fractions",
        "linebook",
        "json",
        "rl_accel",
        "_rl_accel",
        "fontpkg",
        "pypdf",
        "templates",
    ),
)


@pytest.fixture
def surroundings(tmp_path: Path) -> dict[str, Path]:
    """A house, a home folder and a folder to stand in, both full of files that would leave a mark if they were run."""
    places = {name: tmp_path / name for name in ("home", "stand", "marks", "out", "cache")}
    for name in ("home", "stand", "marks"):
        places[name].mkdir()
    trap = f"import pathlib; (pathlib.Path({str(places['marks'])!r}) / __name__.replace('.', '_')).touch()\n"
    for name in TRAPS:
        (places["stand"] / f"{name}.py").write_text(trap)
        (places["home"] / f"{name}.py").write_text(trap)
    for name in (".reportlab_settings", ".reportlab_mods", ".pintrc", ".pythonrc.py"):
        (places["home"] / name).write_text(trap.replace("__name__.replace('.', '_')", repr(name)))
    places["house"] = write_house(texts_of(STARTER), tmp_path / "house")
    return places


def _environment(places: dict[str, Path]) -> dict[str, str]:
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("PYTHON", "COV", "RL_"))}
    return kept | {
        "HOME": str(places["home"]),
        "XDG_CONFIG_HOME": str(places["home"]),
        "XDG_DATA_HOME": str(places["home"]),
        "XDG_CACHE_HOME": str(places["cache"]),
        "PYTHONDONTWRITEBYTECODE": "1",
    }


@pytest.mark.parametrize("command", ["bind", "check", "matrix", "batch"])
def test_a_run_opens_only_what_is_its_own(surroundings: dict[str, Path], command: str) -> None:
    places = surroundings
    arguments = {
        "bind": ["bind", str(places["house"]), "-o", str(places["out"])],
        "check": ["check", str(places["house"])],
        "matrix": ["matrix", str(places["house"]), "-o", str(places["out"] / "m.pdf")],
        "batch": [
            "batch",
            "roast-carrots",
            "--house",
            str(places["house"]),
            "--makes",
            "3 kg",
            "-o",
            str(places["out"] / "b.pdf"),
        ],
    }[command]
    log = places["out"].with_name("log")
    done = subprocess.run(
        [sys.executable, "-P", str(DRIVER), str(log), *arguments],
        cwd=places["stand"], env=_environment(places), capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    seen = [tuple(json.loads(line)) for line in log.read_text().splitlines()]
    house, out = str(places["house"]), str(places["out"])
    cache = str(places["cache"])  # what is kept of a print, which only `bind` does
    strangers = []
    for event, path, other in seen:
        own = {
            "read": _within(path, house, out, cache, *PROGRAM),
            "write": _within(path, out, cache),
            "os.listdir": _within(path, house, out, cache, *PROGRAM),
            "os.scandir": _within(path, house, *PROGRAM, *FONTS),
            "os.walk": _within(path, *FONTS),
            "os.mkdir": _within(path, out, cache),
            "os.rename": _within(path, out, cache) and _within(other, out, cache),
            "os.fork": True,  # a copy of the run itself, which draws half of the sheets and is watched too
            "code.__new__": other == "<string>" or _within(other, *PROGRAM),  # our own code under other names
        }
        if not own.get(event, False):
            strangers.append((event, path, other))
    assert not strangers
    assert (places["cache"] / "linebook").is_dir() == (command == "bind")
    assert {"read", *(("write", "os.rename") if command != "check" else ())} <= {event for event, _, _ in seen}
    assert list(places["marks"].iterdir()) == []


def test_the_installed_command_runs_nothing_that_lies_about(surroundings: dict[str, Path]) -> None:
    places = surroundings
    entry = Path(sysconfig.get_path("scripts")) / "linebook"
    if not entry.exists():
        pytest.skip("linebook is not installed beside this Python")
    done = subprocess.run(
        [str(entry), "bind", str(places["house"]), "-o", str(places["out"])],
        cwd=places["stand"], env=_environment(places), capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert list(places["marks"].iterdir()) == []
    assert sorted(path.name for path in places["out"].iterdir()) == [
        ".kept.txt",
        "allergen-matrix.pdf",
        "stove-binder.pdf",
    ]


def test_the_traps_work(surroundings: dict[str, Path]) -> None:
    """So that the absence of marks says something: Python asked to look there runs them."""
    places = surroundings
    code = "import sys; sys.path.insert(0, '.'); import reportlab_mods"
    subprocess.run([sys.executable, "-c", code], cwd=places["stand"], env=_environment(places), check=True)
    subprocess.run(
        [sys.executable, "-c", "import reportlab"], cwd=places["home"].parent, env=_environment(places), check=True
    )
    assert sorted(path.name for path in places["marks"].iterdir()) == [".reportlab_mods", "reportlab_mods"]


def _within(path: str, *folders: str) -> bool:
    return any(path == folder or path.startswith(folder.rstrip("/") + "/") for folder in folders)
