"""A plain style sheet as declarations; contrast by the formula of WCAG 2.2 (relative luminance on linear sRGB)."""

from __future__ import annotations

import re
from collections.abc import Iterator

_RULE = re.compile(r"([^{}]+)\{([^{}]*)\}")


def declarations(style: str) -> Iterator[tuple[str, str, str]]:
    """Yield selector, property and value of each declaration, those inside media rules too."""
    bare = re.sub(r"/\*.*?\*/", "", style, flags=re.DOTALL)
    bare = re.sub(r"@media[^{]*\{((?:[^{}]*\{[^{}]*\})*)\s*\}", r"\1", bare)
    for selector, body in _RULE.findall(bare):
        for line in body.split(";"):
            name, _, value = line.partition(":")
            if value:
                yield " ".join(selector.split()), name.strip(), " ".join(value.split())


def _resolved(value: str, known: dict[str, str]) -> str:
    return re.sub(r"var\((--[a-z]+)\)", lambda match: known[match[1]], value)


def contrasts(style: str) -> dict[tuple[str, str, str], float]:
    """Return the contrast of each rule's text on its own ground, or on the page's where it has none of its own."""
    known = {name: value for selector, name, value in declarations(style) if selector == ":root"}
    rules: dict[str, dict[str, str]] = {}
    for selector, name, value in declarations(style):
        rules.setdefault(selector, {})[name] = _resolved(value, known)
    page = rules["body"]
    found = {}
    for selector, rule in rules.items():
        colour, ground = rule.get("color"), rule.get("background", page["background"])
        if colour in (None, "inherit"):
            colour = page["color"]
        if ground == "inherit" or "gradient" in ground:
            ground = page["background"]
        if "color" in rule or "background" in rule:
            assert colour is not None
            found[selector, colour, ground] = contrast(colour, ground)
    return found


def contrast(one: str, other: str) -> float:
    """Return the contrast of two ``#rrggbb`` colours, 1 to 21."""
    lighter, darker = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def _luminance(colour: str) -> float:
    assert re.fullmatch(r"#[0-9a-f]{6}", colour), colour
    levels = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (level / 12.92 if level <= 0.04045 else ((level + 0.055) / 1.055) ** 2.4 for level in levels)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def sizes_in_rem(style: str) -> list[float]:
    """Return every size of type in rem; those of drawings, in a drawing's own units, are measured in a browser."""
    sizes = []
    for selector, name, value in declarations(style):
        if name == "font-size" and not selector.startswith(("svg", "#figure-")):
            assert value.endswith(("rem", "%")), (selector, value)
            sizes.append(float(value[:-3]) if value.endswith("rem") else float(value[:-1]) / 100)
    return sizes
