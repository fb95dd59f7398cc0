"""The pages in a real browser: nothing runs over at the widths people hold, words and targets are large enough,
nothing is asked of any network, and what a screen reader gets is all there.

Skipped, with the reason, where no browser of the Chromium family is installed.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from headless import NAMES, Headless, find_browser

BROWSER = find_browser()
pytestmark = pytest.mark.skipif(BROWSER is None, reason=f"no browser is installed: none of {', '.join(NAMES)} on PATH")

PAGES = (
    "index",
    "station-card-leeks-almond",
    "station-card-short-rib-celeriac",
    "plating-guide-short-rib-celeriac",
    "batch-card-short-rib-smoked",
    "batch-card-potato-dumpling",
    "cutting-plan-honey-cake-built",
    "line-cover-hearth",
    "allergen-matrix",
)
STRAINED = (
    "index",
    "station-card-grand",
    "station-card-verdicts",
    "plating-guide-grand",
    "batch-card-sixty",
    "batch-card-wordy",
    "batch-card-limits",
    "allergen-matrix",
)
HOUSES = {"demo": PAGES, "in two languages": PAGES, "strained": STRAINED}
WIDTHS = (320, 390, 768, 1024)

RUNS_OVER = """
[document.documentElement.scrollWidth, ...[...document.querySelectorAll('main *')].filter(one => {
  const box = one.getBoundingClientRect();
  return !one.closest('.scroll, .said, svg, caption, thead') && (box.right > document.documentElement.clientWidth + 0.5 || box.left < -0.5);
}).map(one => one.outerHTML.slice(0, 80))]
"""
SMALL_WORDS = """
(() => {
  const found = [], walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const one = walker.currentNode.parentElement, svg = one.ownerSVGElement;
    if (!walker.currentNode.data.trim() || one.closest('.said, caption, title, desc, style')) continue;
    const scale = svg ? svg.getBoundingClientRect().width / svg.viewBox.baseVal.width : 1;
    const size = parseFloat(getComputedStyle(one).fontSize) * scale;
    if (size < 15.99) found.push([walker.currentNode.data, size]);
  }
  return found;
})()
"""
SMALL_TARGETS = """
[...document.querySelectorAll('a:not(.skip)')].map(one => [one.textContent, one.getBoundingClientRect()])
  .filter(([, box]) => box.width < 24 || box.height < 24).map(([words, box]) => [words, box.width, box.height])
"""
POOR_CONTRAST = """
(() => {
  const found = [], walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const parts = colour => colour.match(/[0-9.]+/g).map(Number);
  const light = colour => {
    const [r, g, b] = parts(colour).map(v => v / 255).map(v => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const ground = one => {
    for (; one; one = one.parentElement) {
      const colour = getComputedStyle(one).backgroundColor, [, , , alpha = 1] = parts(colour);
      if (alpha) return colour;
    }
    return 'rgb(255, 255, 255)';
  };
  while (walker.nextNode()) {
    const one = walker.currentNode.parentElement;
    if (!walker.currentNode.data.trim() || one.closest('svg, style')) continue;
    const [high, low] = [light(getComputedStyle(one).color), light(ground(one))].sort((a, b) => b - a);
    if ((high + 0.05) / (low + 0.05) < 4.5) found.push(walker.currentNode.data);
  }
  return found;
})()
"""


@pytest.fixture(scope="module")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Headless]:
    assert BROWSER is not None
    try:
        page = Headless(BROWSER, tmp_path_factory.mktemp("profile"))
    except AssertionError as reason:
        pytest.skip(f"{BROWSER} is installed and does not start: {reason}")
    try:
        yield page
    finally:
        page.close()


def _open(browser: Headless, folder: Path, name: str, width: int, height: int = 800) -> None:
    browser.open((folder / f"{name}.html").as_uri(), width, height)


@pytest.mark.parametrize("house", HOUSES)
@pytest.mark.parametrize("width", WIDTHS)
def test_no_page_runs_over_and_all_can_be_read_and_hit(
    browser: Headless, folders: dict[str, Path], house: str, width: int
) -> None:
    """Words of 16 CSS pixels or more; WCAG 2.2, SC 1.4.10 (reflow at 320) and SC 2.5.8 (targets of 24 by 24)."""
    for name in HOUSES[house]:
        _open(browser, folders[house], name, width)
        assert browser.value(RUNS_OVER) == [width], name
        assert browser.value(SMALL_WORDS) == [], name
        assert browser.value(SMALL_TARGETS) == [], name


def test_what_is_wrong_is_found(browser: Headless, demo_folder: Path) -> None:
    """The measures themselves, on a page that was spoilt after it was opened."""
    _open(browser, demo_folder, "index", 320)
    spoil = "document.querySelector('h1').style"
    browser.value(f"{spoil}.width = '400px', {spoil}.fontSize = '15px', {spoil}.color = '#777777'")
    browser.value("document.querySelector('li a').style.fontSize = '8px'")
    over = browser.value(RUNS_OVER)
    assert over[0] > 320
    assert over[1].startswith("<h1 ")
    assert ["Find a dish", 15] in browser.value(SMALL_WORDS)
    assert browser.value(POOR_CONTRAST) == ["Find a dish"]


@pytest.mark.parametrize("name", PAGES)
def test_all_words_stand_out_from_what_is_under_them(browser: Headless, demo_folder: Path, name: str) -> None:
    """WCAG 2.2, SC 1.4.3, measured on what the browser has computed."""
    _open(browser, demo_folder, name, 390)
    assert browser.value(POOR_CONTRAST) == []


@pytest.mark.parametrize("name", PAGES)
def test_nothing_is_asked_for_and_nothing_is_refused(browser: Headless, demo_folder: Path, name: str) -> None:
    _open(browser, demo_folder, name, 390)
    assert [url for url in browser.requests() if not url.endswith(f"/{name}.html")] == []
    assert browser.complaints() == []
    assert browser.value("getComputedStyle(document.body).marginTop") == "0px", "the style is applied"


def test_the_policy_holds_against_what_a_page_might_carry(browser: Headless, demo_folder: Path, tmp_path: Path) -> None:
    """A page that was tampered with runs nothing and fetches nothing."""
    text = (demo_folder / "index.html").read_text(encoding="utf-8")
    worm = '<script>document.title="run"</script><img src="http://127.0.0.1:9/x.png" onerror="document.title=\'run\'"/>'
    (tmp_path / "worm.html").write_text(text.replace("<article>", f"<article>{worm}", 1), encoding="utf-8")
    _open(browser, tmp_path, "worm", 390)
    assert browser.value("document.title") == "Find a dish · Harrow Weir"
    assert len(browser.complaints()) >= 2


@pytest.mark.parametrize("width", [320, 1024])
def test_the_matrix_scrolls_in_a_region_with_its_heads_in_place(
    browser: Headless, demo_folder: Path, width: int
) -> None:
    _open(browser, demo_folder, "allergen-matrix", width, 500)
    found = browser.value(
        """(() => {
          const region = document.querySelector('.scroll');
          region.focus();
          region.scrollTo(150, 400);
          const before = region.getBoundingClientRect();
          const rows = [...region.querySelectorAll('tbody th[scope=row]')].map(one => one.getBoundingClientRect());
          const heads = [...region.querySelectorAll('thead th')].map(one => one.getBoundingClientRect());
          return {
            focused: document.activeElement === region, page: document.documentElement.scrollWidth,
            scrolled: [region.scrollLeft > 0 || region.scrollWidth <= region.clientWidth, region.scrollTop > 0],
            rows: rows.every(box => Math.abs(box.left - before.left) < 1),
            heads: heads.every(box => Math.abs(box.top - before.top) < 1),
            name: rows[0].width,
          };
        })()"""
    )
    assert found["focused"]
    assert found["scrolled"] == [True, True]
    assert found["rows"]
    assert found["heads"]
    assert found["page"] == width
    assert found["name"] < width / 2, "the names leave room for the marks"


def test_who_hears_the_page_gets_heads_marks_and_drawings_in_words(browser: Headless, demo_folder: Path) -> None:
    _open(browser, demo_folder, "allergen-matrix", 390)
    said = _accessible(browser)
    assert ("region", "Every dish against every allergen: scrolls sideways and down") in said
    assert ("columnheader", "crustaceans") in said
    assert ("rowheader", "Leeks in ash, almond") in said
    assert any(role in ("cell", "gridcell") and name.startswith("contains nuts (almond)") for role, name in said)
    _open(browser, demo_folder, "batch-card-short-rib-smoked", 320)
    laid_out_as_lines = _accessible(browser)
    assert ("columnheader", "80 covers") in laid_out_as_lines
    assert ("rowheader", "thyme picked") in laid_out_as_lines
    _open(browser, demo_folder, "plating-guide-leeks-almond", 390)
    images = [name for role, name in _accessible(browser) if role in ("image", "img")]
    assert all(images)
    assert images[0].startswith("Leeks in ash, almond: the plate round plate 24 cm")
    roles = [role for role, _ in _accessible(browser)]
    for landmark in ("banner", "navigation", "main", "contentinfo"):
        assert roles.count(landmark) == 1


def _accessible(browser: Headless) -> list[tuple[str, str]]:
    nodes: list[dict[str, Any]] = browser.call("Accessibility.getFullAXTree")["nodes"]
    return [
        (node["role"]["value"], node.get("name", {}).get("value", "").strip()) for node in nodes if not node["ignored"]
    ]
