"""Every page of the demo house keeps to the rules of any page; planted defects are found by them."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from page_reader import read_page
from page_rules import complaints_about
from style_reader import contrast


def test_every_page_keeps_to_the_rules(folders: dict[str, Path]) -> None:
    for house, folder in folders.items():
        pages = {path.name: path.read_text(encoding="utf-8") for path in sorted(folder.glob("*.html"))}
        found = {name: complaints_about(text, pages) for name, text in pages.items()}
        assert {name: complaints for name, complaints in found.items() if complaints} == {}, house
        assert len(pages) > 60


def test_a_second_language_is_told_from_the_first(folders: dict[str, Path]) -> None:
    """SC 3.1.2: each passage in another language says which."""
    pages = [path.read_text(encoding="utf-8") for path in sorted(folders["in two languages"].glob("*.html"))]
    for page in map(read_page, pages):
        assert page.one("html").attributes["lang"] == "es"
        seconds = [node for node in page.all() if "lang" in node.attributes and node.tag != "html"]
        assert seconds
        assert {node.attributes["lang"] for node in seconds} == {"en"}
    card = read_page((folders["in two languages"] / "station-card-leeks-almond.html").read_text(encoding="utf-8"))
    assert card.one("h1").text.startswith("Puerros")
    assert [node.text for node in card.one("h1").of_class("second")] == ["Leeks in ash, almond"]


@pytest.mark.parametrize(
    ("name", "old", "new", "complaint"),
    [
        ("station-card-leeks-almond", "<h2 ", "<h3 ", "closes <h3>"),
        ("station-card-leeks-almond", ' scope="row"', "", "a head without a scope"),
        ("station-card-leeks-almond", '<html lang="en">', "<html>", "no language"),
        (
            "station-card-leeks-almond",
            'href="index.html"',
            'href="http://example.org/"',
            "a link to http://example.org/",
        ),
        ("station-card-leeks-almond", 'href="index.html"', 'href="old-card.html"', "a link to old-card.html"),
        ("station-card-leeks-almond", '<a class="skip"', '<a class="other"', "does not skip"),
        ("station-card-leeks-almond", "</desc>", "</desc><script>1</script>", "<script>"),
        ("station-card-leeks-almond", "<article>", '<article onclick="x()">', "an attribute onclick"),
        ("station-card-leeks-almond", "<article>", '<article style="color:red">', "an attribute style"),
        ("station-card-leeks-almond", "<article>", '<article><img src="https://example.org/a" alt="a"/>', "src loads"),
        ("station-card-leeks-almond", "--quiet: #595959", "--quiet: #999999", "has a contrast of 2.85"),
        ("station-card-leeks-almond", "--quiet: #595959", "--quiet: #5a5a5a", "the policy is"),
        ("station-card-leeks-almond", "font-size: 1.0625rem", "font-size: 0.875rem", "words of 0.875rem"),
        ("station-card-leeks-almond", "default-src 'none'".replace("'", "&#x27;"), "default-src *", "the policy is"),
        ("plating-guide-leeks-almond", ' role="img"', "", "no image to who hears the page"),
        ("plating-guide-leeks-almond", "<h1>", '<h1 id="part-1">', "the id part-1 twice"),
        ("allergen-matrix", ' tabindex="0"', "", "takes no focus"),
        (
            "allergen-matrix",
            '<span class="said">contains',
            '<span class="said"></span><span>contains',
            "only the eye has",
        ),
        ("allergen-matrix", "<caption", "<b", "closes <b>"),
        ("index", "<ul>", "<ul><li>", "closes <li>"),
    ],
)
def test_a_planted_defect_is_found(demo_pages: dict[str, str], name: str, old: str, new: str, complaint: str) -> None:
    text = demo_pages[f"{name}.html"]
    assert old in text
    found = complaints_about(text.replace(old, new, 1), demo_pages)
    assert any(complaint in one for one in found), found


def test_skipped_levels_are_found(demo_pages: dict[str, str]) -> None:
    text = re.sub(r"<(/?)h2", r"<\1h4", demo_pages["station-card-leeks-almond.html"])
    assert "a heading of level 4 follows one of 1" in complaints_about(text, demo_pages)


def test_contrast_is_that_of_the_published_checks() -> None:
    """WCAG's own formula on the colours of its well-known border cases."""
    for colour, ratio in {"000000": 21.0, "595959": 7.005, "767676": 4.542, "777777": 4.478, "949494": 3.033}.items():
        assert contrast(f"#{colour}", "#ffffff") == pytest.approx(ratio, abs=0.002)


def test_each_page_says_what_it_is(demo_pages: dict[str, str]) -> None:
    """Fingerprint and date of issue as on paper, and a title that tells pages apart."""
    titles = set()
    for name, text in demo_pages.items():
        page = read_page(text)
        foot = page.one("body").children[-2]
        assert re.match(r"[0-9A-HJKMNP-TV-Z]{8} issued 2 March 2027 · Harrow Weir", foot.text), name
        titles.add(next(page.all("title")).text)
    assert len(titles) == len(demo_pages)
    assert "Leeks in ash, almond · Station card · Harrow Weir" in titles


def test_all_pages_are_found_from_the_first(demo_pages: dict[str, str]) -> None:
    reached, todo = set(), ["index.html"]
    while todo:
        name = todo.pop()
        if name not in reached:
            reached.add(name)
            links = (link.attributes["href"].partition("#")[0] for link in read_page(demo_pages[name]).all("a"))
            todo += [file for file in links if file]
    assert reached == set(demo_pages)


def test_the_index_lists_by_course_line_and_name(demo_pages: dict[str, str]) -> None:
    page = read_page(demo_pages["index.html"])
    assert [node.text for node in page.all("h2")] == ["By course", "By line", "A to Z"]
    courses = ["Bread", "Snacks", "Cold", "From the fire", "Pots", "Sweet"]
    lines = ["Larder line", "Hearth line", "Stove line", "Pastry line"]
    assert [node.text for node in page.all("h3")] == [*courses, *lines]
    names = [next(item.all("a")).text for item in list(page.all("ul"))[-1].all("li")]
    assert len(names) == len(set(names)) > 50
    assert names == sorted(names, key=lambda name: name.replace("é", "e").casefold())


def test_file_names_are_plain(demo_folder: Path) -> None:
    names = sorted(path.name for path in demo_folder.iterdir())
    assert all(re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*\.(html|txt)", name) for name in names)
    assert [name for name in names if name.endswith(".txt")] == ["linebook-files.txt"]


def test_the_elements_of_a_dish_lead_to_their_cards(demo_pages: dict[str, str]) -> None:
    page = read_page(demo_pages["station-card-leeks-almond.html"])
    heads = {head.text: [link.attributes["href"] for link in head.all("a")] for head in page.all("th")}
    assert heads["Almond sauce small ladle"] == ["batch-card-almond-sauce.html"]
    assert heads["chervil tweezers"] == []
    header = [link.attributes["href"] for link in page.one("nav").all("a")]
    assert header == ["index.html", "allergen-matrix.html", "line-cover-hearth.html", "plating-guide-leeks-almond.html"]
