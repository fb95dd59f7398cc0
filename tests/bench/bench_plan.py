"""The prep plan of a week of the demo, and of a year of it in one go: time for each service, and how they compare.

    python tests/bench/bench_plan.py [--services N]

The week is planned as the command does, with the two weeks after it. The year is the menu of early spring served on and
on; its time for each service must stay within 20 times that of the week. Times are of the processor, the best of three
for the week.
"""

import argparse
import sys
import time
from dataclasses import replace
from datetime import date, timedelta
from itertools import islice
from pathlib import Path
from types import MappingProxyType

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "src")]

from linebook.compute.prep_plan import compute_plan, days_ahead  # noqa: E402
from linebook.compute.services import NOT_ASKED, ServiceDay, find_services, later_services  # noqa: E402
from linebook.model.house import House  # noqa: E402
from linebook.pipeline import load_house  # noqa: E402

WEEK = date(2027, 3, 9)
MENU = "early-spring"
MOST = 20


def of_week(house: House) -> tuple[float, int, int]:
    """Seconds, services and batches of a week."""
    services = find_services(house, WEEK, 7).value
    assert services is not None
    last = WEEK + timedelta(days=6)
    later = later_services(house, last + timedelta(days=1), last + timedelta(days=days_ahead(house)), NOT_ASKED)
    spent, batches = [], 0
    for _ in range(3):
        begin = time.process_time()
        plan = compute_plan(house, services.days, later, first=WEEK, last=last)
        spent.append(time.process_time() - begin)
        batches = len(plan.makings)
    return min(spent), len(services.days), batches


def of_year(house: House, number: int) -> tuple[float, int, int]:
    """Seconds, services and batches of so many services of one menu, without an end."""
    endless = replace(house, menus=MappingProxyType({MENU: replace(house.menus[MENU], last=None)}))
    first = house.menus[MENU].first
    found = find_services(endless, first, 2 * number).value
    assert found is not None
    services: tuple[ServiceDay, ...] = tuple(islice(found.days, number))
    begin = time.process_time()
    plan = compute_plan(endless, services, first=first, last=services[-1].day)
    return time.process_time() - begin, len(services), len(plan.makings)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--services", type=int, default=300)
    number = parser.parse_args().services
    house = load_house(ROOT / "specs", "specs").value
    assert house is not None
    print(f"{len(house.components)} components")
    each = []
    for name, (seconds, services, batches) in (("week", of_week(house)), ("year", of_year(house, number))):
        each.append(seconds / services)
        print(f"{name}: {services} services, {batches} batches, {seconds:.2f} s, {1000 * each[-1]:.0f} ms a service")
    print(f"year against week: {each[1] / each[0]:.2f} times a service (at most {MOST})")


if __name__ == "__main__":
    main()
