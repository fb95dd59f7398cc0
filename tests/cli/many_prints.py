"""Run by a test in a process of its own: ``many_prints.py N`` prints specs/ N times as ``watch`` does; says the memory after 10 and after all.

In kilobytes that are in use then, not at most. The name of the dish is another each time.
"""

import sys
from pathlib import Path

import click

from linebook import copies
from linebook.cli import watch


def used() -> int:
    for line in Path("/proc/self/status").read_text("utf-8").splitlines():
        if line.startswith("VmRSS"):
            return int(line.split()[1])
    raise SystemExit("this system does not say how much memory is in use")


copies._can_copy = lambda: False
dish = Path("specs/dishes/lentil-bowl.md")
text = dish.read_text("utf-8")
at_ten = 0
with click.Context(watch.command) as context:
    for number in range(int(sys.argv[1])):
        dish.write_text(text.replace("name: ", f"name: Day {number} ", 1), "utf-8")
        given = {"house_folder": "specs", "output": Path("out"), "menu": "first-menu"}
        if not watch.print_once(context, Path("specs"), "specs", given):
            raise SystemExit("not printed")
        at_ten = used() if number == 9 else at_ten
print(at_ten, used())
