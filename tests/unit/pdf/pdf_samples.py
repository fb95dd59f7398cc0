"""Block trees to draw in tests: the four pages of the sketches, and pages made to be hard. All of it invented."""

from pathlib import Path

from linebook.figures.shapes import Drawing, Ellipse, Ink, Label, Polygon
from linebook.markup.blocks import (
    Box,
    Cell,
    Fact,
    Facts,
    FigureRef,
    Heading,
    Mark,
    Paragraph,
    Points,
    Row,
    Rule,
    Run,
    SheetText,
    Split,
    Step,
    Steps,
    Table,
)
from linebook.markup.vocabulary import PARAGRAPH_ROLES
from linebook.pdf.fonts import open_faces
from linebook.pdf.furniture import Band, Foot
from linebook.pdf.sheets import Sheet
from linebook.pdf.theme_reader import read_theme
from linebook.source.spans import SourceFile

THEME_PATH = Path(__file__).resolve().parents[3] / "templates" / "theme.yaml"


def read_text(text):
    return read_theme(SourceFile(path="theme.yaml", text=text), paragraph_roles=PARAGRAPH_ROLES)


def theme_text():
    return THEME_PATH.read_text(encoding="utf-8")


THEME = read_text(theme_text()).value
FACES = open_faces(THEME).value
HEARTH = Band(name="Hearth", position=1, count=4)


def inline(text):
    """Runs from a shorthand: ``**bold**``, ``_italic_``, ``~quiet~``; ``[tick]`` and the like are marks."""
    made = []
    bold = italic = quiet = False
    piece = ""

    def close():
        nonlocal piece
        if piece:
            made.append(Run(text=piece, bold=bold, italic=italic, quiet=quiet))
        piece = ""

    at = 0
    while at < len(text):
        if text.startswith("**", at):
            close()
            bold, at = not bold, at + 2
        elif text[at] == "_":
            close()
            italic, at = not italic, at + 1
        elif text[at] == "~":
            close()
            quiet, at = not quiet, at + 1
        elif text[at] == "[":
            close()
            end = text.index("]", at)
            kind, _, rest = text[at + 1 : end].partition(" ")
            number = int(rest) if rest.isdigit() else 0
            if kind == "tick":
                made.append(Mark(kind="tick", word="to tick", count=number or 1))
            elif kind == "blank":
                made.append(Mark(kind="blank", word="to write", width=number or 4))
            else:
                made.append(Mark(kind=kind, word=rest))
            at = end + 1
        else:
            piece, at = piece + text[at], at + 1
    close()
    return tuple(made)


def cell(text="", note="", span=1, scope=""):
    return Cell(content=inline(text), note=inline(note), span=span, scope=scope)


def row(*cells, heading=False, key=""):
    return Row(cells=tuple(one if isinstance(one, Cell) else cell(one) for one in cells), heading=heading, key=key)


def steps(*texts, start=1):
    return Steps(steps=tuple(Step(number=number, content=inline(text)) for number, text in enumerate(texts, start)))


def facts(*pairs, role="plain"):
    return Facts(facts=tuple(Fact(term=inline(term), value=inline(value)) for term, value in pairs), role=role)


def heading(text, level=2, aside=""):
    return Heading(level=level, content=inline(text), aside=inline(aside))


def text(string, role="body"):
    return Paragraph(content=inline(string), role=role)


def sheet(blocks, *, kind="batch-card", title="Smoked short rib, glazed", kicker="Hearth · Batch card", aside="",
          landscape=False, identity="sample", figures=None, band=HEARTH, section="", lines=None):  # fmt: skip
    made = SheetText(
        id=identity, kind=kind, line="hearth", landscape=landscape, kicker=inline(kicker), title=(Run(text=title),),
        aside=inline(aside), blocks=tuple(blocks),
    )  # fmt: skip
    foot = Foot(lines=lines or ("issued 2 March 2027 · Harrow Weir · early spring", f"{kind} · {title}"))
    return Sheet(text=made, figures=figures or {}, foot=foot, fingerprint="7F3A91C2", band=band, section=section)


def batch_card():
    table = Table(
        columns=("tick", "amount", "unit", "name", "figure", "figure"),
        head=(row("", cell("each load", span=2), "", "in all", "base batch"),),
        rows=(
            row(cell("Brine", "Thu 15:30, lift out Fri 08:00 to 11:30", span=6), heading=True),
            row("[tick 2]", "8.4", "kg", cell("beef short rib, bone in", "silverskin off"), "16.8 kg", "~14 kg~"),
            row("[tick 2]", "5.4", "L", "basic brine", "10.8 L", "~9 L~"),
            row(cell("Smoke", "Fri 11:30, someone in the building, done 18:30 to 20:30", span=6), heading=True),
            row("[tick 2]", "240", "g", "beech smoke salt", "480 g", "~400 g~"),
            row("[tick 2]", "36", "g", cell("black pepper", "cracked"), "72 g", "~60 g~"),
            row(cell("Glaze", "Sat 15:00", span=6), heading=True),
            row("[tick 2]", "900", "g", "short rib stock", "1800 g", "~1500 g~"),
            row("[tick 2]", "150", "g", "chipotle paste", "300 g", "~250 g~"),
            row("[tick 2]", "6", "g", cell("gelatine, silver", "3 leaves"), "12 g", "~10 g~"),
        ),
    )
    log = Table(
        columns=("text", "text", "text", "text", "text"),
        head=(),
        rows=(
            row("**load 1**", "at 57 °C [blank 4]", "2 h [blank 3] °C", "6 h [blank 3] °C", "initials [blank 4]"),
            row("**load 2**", "at 57 °C [blank 4]", "2 h [blank 3] °C", "6 h [blank 3] °C", "initials [blank 4]"),
        ),
        role="log",
    )
    return sheet(
        [
            Split(
                left=(
                    text("Makes 10.8 kg, 72 pieces", "lead"),
                    text("2 even loads, each as below; 10 pieces spare"),
                ),
                right=(
                    facts(
                        ("for", "**140 covers**"),
                        ("use by", "**Mon 8 March**"),
                        ("store", "**half pan 65 deep × 3, 3 °C**"),
                    ),
                ),
                left_share=58,
            ),
            facts(
                ("Contains", "celery, mustard, soy, wheat"),
                ("May contain", "nothing known"),
                ("Undeclared", "chipotle paste: treat as containing anything"),
                role="allergens",
            ),
            table,
            heading("Brine", 3),
            steps(
                "Lay bone side down, **8.4 kg** a tub. Cover with **cold** brine, weight under.",
                "Lift out after **16 to 20 h**, rinse, dry on racks **30 min**.",
            ),
            heading("Smoke", 3),
            steps(
                "Rub. Smoke over beech at **105 °C** until the core reads **93 °C** and a skewer meets no push.", start=3
            ),
            Box(
                role="limit",
                blocks=(
                    heading("Cool", 3, aside="**57 → 21 °C within 2 h, then to 5 °C within 6 h in all**"),
                    text("Missed? Reheat to 74 °C once and start again, or discard: the house plan says which.", "safety"),
                    log,
                ),
            ),
            text("FDA Food Code 2022, 3-501.14. Local code and your food-safety plan decide.", "source"),
        ],
        aside="for Sat 6 March only, bin after service",
        section="Smoked short rib, glazed",
    )  # fmt: skip


def plate(small):
    side = 64.0 if small else 110.0
    middle = side / 2
    shapes = [
        Ellipse(centre=(middle, middle), rx=middle - 6, ry=middle - 6, ink=Ink(width=0.55)),
        Ellipse(centre=(middle, middle), rx=middle - 16, ry=middle - 16, ink=Ink(stroke=0.45, width=0.2)),
        Ellipse(centre=(middle - 6, middle), rx=14, ry=5, turn=20, ink=Ink(fill=0.86, width=0.3)),
        Polygon(points=((middle, middle), (middle + 9, middle), (middle + 9, middle + 9), (middle, middle + 9)),
                ink=Ink(fill=0.42, width=0.3)),
    ]  # fmt: skip
    if not small:
        shapes += [
            Polygon(points=((8, 8), (middle - 10, middle - 2)), closed=False),
            Ellipse(centre=(8, 8), rx=3.6, ry=3.6, ink=Ink(fill=1.0, width=0.3)),
            Label(at=(8, 8), text="1"),
        ]
    return Drawing(width=side, height=side, shapes=tuple(shapes), alternative="a plate")


ELEMENTS = (
    ("1", "70", "g", "celeriac purée", "bain 65 °C, no. 16 scoop"),
    ("2", "2", "pieces", "smoked short rib", "fridge, third pan"),
    ("3", "6", "g", "walnut crumb", "may be left off"),
    ("4", "3", "discs", "pickled walnut", "ninth pan"),
    ("5", "3", "leaves", "lovage", "ninth pan, damp cloth"),
    ("6", "25", "g", "short rib jus", "bain, 75 °C"),
)


def station_card():
    table = Table(
        columns=("number", "amount", "unit", "name"),
        head=(row(cell("**One portion**", span=3), "hold on the line, tool"),),
        rows=tuple(row(f"**{n}**", a, u, cell(f"**{name}**", note)) for n, a, u, name, note in ELEMENTS),
        role="elements",
    )
    return sheet(
        [
            Split(
                left=(text("**mains, round plate 28 cm, warm**"),),
                right=(text("**9 minutes from call to pass**"),),
                left_share=60,
            ),
            facts(
                ("Contains", "celery, gluten cereals (wheat), milk, mustard, soy, tree nuts (walnut)"),
                ("May contain", "fish, molluscs (shared fryer: celeriac crisp)"),
                ("Undeclared", "chipotle paste, in the glaze"),
                role="allergens",
            ),
            Split(
                left=(table,),
                right=(FigureRef(name="small", alternative="a plate", caption=inline("see its plating guide"), role="small"),),
                left_share=62,
            ),
            heading("Pick-up"),
            steps(
                "**Read the ticket for allergies.** Then two pieces glaze side up on the grate, lid down, **4 min**. "
                "Plates to the hotbox.",
                "Brush with glaze twice, **1 min** between, until it is lacquered and bubbles at the edge. Core **74 °C**.",
                "Purée on, pulled from 10 to 3 o'clock. Meat on its thick end. Crumb on the first piece only, discs, leaves.",
                "Jus at the pass, **25 g** from the small ladle.",
            ),
            Rule(),
            facts(
                ("**Taste for**", "Smoke first, then the walnut's sharpness; the jus must be **salty enough to season the "
                 "purée**. Flat? A spoon of pickling liquor in the jus before salt."),
                role="plain",
            ),
            facts(
                ("Milk, celery, mustard, soy, wheat", "**do not serve**"),
                ("Walnut, fish, molluscs, anything else", "**cannot say, ask the chef**"),
                role="verdicts",
            ),
        ],
        kind="station-card", kicker="Hearth · Station card", title="Short rib, celeriac, pickled walnut",
        figures={"small": plate(True)}, identity="station-card:short-rib", section="Short rib, celeriac, pickled walnut",
    )  # fmt: skip


def plating_guide():
    table = Table(
        columns=("number", "amount", "unit", "name"),
        head=(),
        rows=tuple(row(f"[number {n}]", a, u, cell(f"**{name}**", note)) for n, a, u, name, note in ELEMENTS),
        role="list",
    )
    return sheet(
        [
            Split(
                left=(text("**round plate 28 cm, warm**"),),
                right=(text("seen from the guest's side: 6 o'clock is nearest the guest", "quiet"),),
                left_share=40,
            ),
            FigureRef(name="large", alternative="a plate", role="large"),
            table,
            text("**On the plate 6 things.** Rim clean to the inner circle. 45 seconds from rib to pass."),
            Points(points=(text("Glaze side up."), text("The second piece turned a little."))),
        ],
        kind="plating-guide", kicker="Hearth · Plating guide", title="Short rib, celeriac, pickled walnut",
        figures={"large": plate(False)}, identity="plating-guide:short-rib",
        section="Short rib, celeriac, pickled walnut",
    )  # fmt: skip


ALLERGENS = (
    "celery", "gluten cereals", "crustaceans", "egg", "fish", "lupin", "milk", "molluscs", "mustard", "tree nuts",
    "peanut", "sesame", "soy", "sulphites", "garlic (house)",
)  # fmt: skip
DISHES = (
    ("Snacks", None),
    ("Cured trout on rye", "nCnnCnMnCnnnnnn"),
    ("Oyster, cucumber ice", "CMnnnnnCnnnnnCn"),
    ("Cold", None),
    ("Beet tartare, cultured cream", "nnnCnnCnCnnnnCn"),
    ("Chicory, pear, walnut", "nnnnnnnnCcnnnCn"),
    ("From the fire", None),
    ("Short rib, celeriac, pickled walnut", "CC????C?CC??C?C"),
    ("Grilled leeks, almond sauce", "nMnnMnnMnCnnnCC"),
    ("Hearth cabbage, mustard butter", "nnnnnnCnCnnnnnM"),
    ("Pots", None),
    ("Barley and mushroom pot", "CCnnnncnnnnnCnC"),
    ("Potato dumplings, brown butter", "nCnCnnCnnnnnnnM"),
    ("Sweet", None),
    ("Hazelnut meringue, quince", "nnnCnnCnnCnnnmu"),
)
_MARKS = {"n": "free", "C": "contains", "M": "may", "?": "undeclared", "c": "contains-leave", "m": "may-leave",
          "u": "undeclared-leave"}  # fmt: skip


def matrix(dishes=DISHES, allergens=ALLERGENS, landscape=True):
    rows = []
    for name, marks in dishes:
        if marks is None:
            rows.append(row(cell(name, span=len(allergens) + 1), heading=True))
        else:
            rows.append(row(name, *[Cell(content=(Mark(kind=_MARKS[one], word=_MARKS[one]),)) for one in marks]))
    table = Table(
        columns=("name", *["mark"] * len(allergens)),
        head=(row("", *[cell(one, scope="col") for one in allergens]),),
        rows=tuple(rows),
        role="matrix",
    )
    legend = inline(
        "[contains] contains   [contains-leave] contains; can be left off, ask the pass   [may] may contain   "
        "[undeclared] not declared: treat as contains   [free] not in it, no known contact"
    )
    return sheet(
        [
            text("European Union and United Kingdom list, and the house's own", "quiet"),
            table,
            Paragraph(content=legend, role="safety"),
            text("**Short rib: the chipotle paste is not declared, so ask the chef before any promise. Drinks are not on "
                 "this sheet.**", "safety"),
        ],
        kind="allergen-matrix", kicker="Front of house", title="Allergen matrix", aside="early spring, from 2 March 2027",
        landscape=landscape, band=None, identity="allergen-matrix",
    )  # fmt: skip


def cover(links=("sample", "station-card:short-rib", "plating-guide:short-rib", "allergen-matrix")):
    table = Table(
        columns=("name", "text"),
        head=(row("sheet", "kind"),),
        rows=tuple(row(f"The sheet called {one}", "card", key=f"sheet:{one}") for one in links),
        role="contents",
    )
    return sheet([text("Early spring, from 2 March 2027", "lead"), table], kind="line-cover", title="Hearth", kicker="Harrow Weir",
                 identity="line-cover:hearth")  # fmt: skip


def set_out(strip):
    """Return what is drawn of a strip, its lines taken apart into words and marks."""
    return [part for op in strip.ops for part in (op[3].set_out(op[2], *op[:2]) if type(op) is tuple else [op])]
