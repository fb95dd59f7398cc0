"""The lists of allergens that must be declared: owns each list's groups, in the wording of its law, with the source.

A list answers *what must be declared*, never *what is safe for this guest*. What is outside every group of
a list (coconut in 2025, pine nut in the European Union) is still kept by name in a dish's makeup.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from linebook.source.frozen import frozen


@frozen
class Group:
    """One entry of a list. ``members`` are substance ids as the law names them.

    ``apart`` marks an entry that a rule beside the list asks for (the US sulphite rule, Canada's gluten
    sources): it is shown like the others and not counted among them.
    """

    id: str
    name: str
    members: tuple[str, ...]
    source: str
    apart: bool = False
    note: str | None = None


@frozen
class Jurisdiction:
    """One list. ``short`` tells two groups of the same name apart in print; ``title`` heads a matrix."""

    id: str
    short: str
    title: str
    groups: tuple[Group, ...]


_US = "FD&C Act 201(qq) as set by FALCPA 2004 and the FASTER Act 2021; sesame from 1 January 2023"
_US_GUIDE = "FDA, Questions and Answers Regarding Food Allergens, Edition 5 (6 January 2025), Table 1"
_US_SULPHITES = "21 CFR 101.100(a)(4)"
_EU = "Regulation (EU) No 1169/2011, Annex II (as amended by Reg. 78/2014)"
_UK = "assimilated Reg. 1169/2011 Annex II; Food Information Regulations 2014"
_CA = "Food and Drug Regulations, C.R.C. c. 870, B.01.010.1"
_CA_SULPHITES = "Food and Drug Regulations, C.R.C. c. 870, B.01.010.1 to B.01.010.4"
_ANZ = "Food Standards Code, Standard 1.2.3 and Schedule 9"
_CODEX = "Codex CXS 1-1985, section 4.2.1.4, before its 2024 revision"
_CODEX_2024 = "Codex CXS 1-1985, section 4.2.1.4, as revised in 2024"

_NINE_NUTS = (
    "almond",
    "brazil-nut",
    "cashew",
    "hazelnut",
    "macadamia",
    "pecan",
    "pine-nut",
    "pistachio",
    "walnut",
)
_OVER = "10 mg of sulphur dioxide a kilogram or litre or more"
_FROM_TEN = ("sulphites", "sulphites-at-10")
"""Who asks for sulphites from 10 mg on; the European Union and the United Kingdom ask above it."""


def _group(source: str, id_: str, name: str, *members: str, apart: bool = False, note: str | None = None) -> Group:
    return Group(id=id_, name=name, members=members or (id_,), source=source, apart=apart, note=note)


def _us_groups() -> tuple[Group, ...]:
    nuts = (*_NINE_NUTS, "black-walnut", "california-walnut", "heartnut")
    return (
        _group(_US, "milk", "milk", note="Edition 5: goat, sheep and other ruminants too, the source named"),
        _group(_US, "egg", "egg", note="Edition 5: duck, quail and other birds too, the source named"),
        _group(_US, "fish", "fish", note="named by species"),
        _group(_US, "crustacean", "Crustacean shellfish", note="named by species"),
        _group(_US_GUIDE, "tree-nut", "tree nuts", *nuts, note="named by type"),
        _group(_US, "wheat", "wheat", note="every species of Triticum"),
        _group(_US, "peanut", "peanuts"),
        _group(_US, "soy", "soybeans"),
        _group(_US, "sesame", "sesame"),
        _group(_US_SULPHITES, "sulphites", "sulfiting agents", *_FROM_TEN, apart=True, note=_OVER),
    )


def _eu_groups(source: str) -> tuple[Group, ...]:
    cereals = ("wheat", "spelt", "khorasan", "rye", "barley", "oats", "triticale")
    nuts = tuple(nut for nut in _NINE_NUTS if nut != "pine-nut")
    over = "more than 10 mg of sulphur dioxide a kilogram or litre"
    return (
        _group(source, "gluten-cereal", "cereals containing gluten", *cereals, note="and their hybridised strains"),
        _group(source, "crustacean", "crustaceans"),
        _group(source, "egg", "eggs"),
        _group(source, "fish", "fish"),
        _group(source, "peanut", "peanuts"),
        _group(source, "soy", "soybeans"),
        _group(source, "milk", "milk", note="including lactose"),
        _group(source, "tree-nut", "nuts", *nuts),
        _group(source, "celery", "celery"),
        _group(source, "mustard", "mustard"),
        _group(source, "sesame", "sesame seeds"),
        _group(source, "sulphites", "sulphur dioxide and sulphites", note=over),
        _group(source, "lupin", "lupin"),
        _group(source, "mollusc", "molluscs"),
    )


def _ca_groups() -> tuple[Group, ...]:
    gluten = ("barley", "oats", "rye", "triticale", "wheat")
    return (
        _group(_CA, "tree-nut", "tree nuts", *_NINE_NUTS, note="named by type"),
        _group(_CA, "peanut", "peanuts"),
        _group(_CA, "sesame", "sesame seeds"),
        _group(_CA, "wheat", "wheat or triticale", "wheat", "triticale"),
        _group(_CA, "egg", "eggs"),
        _group(_CA, "milk", "milk"),
        _group(_CA, "soy", "soybeans"),
        _group(_CA, "crustacean", "crustaceans"),
        _group(_CA, "mollusc", "molluscs"),
        _group(_CA, "fish", "fish"),
        _group(_CA, "mustard", "mustard seeds"),
        _group(_CA, "gluten-cereal", "gluten sources", *gluten, apart=True),
        _group(_CA_SULPHITES, "sulphites", "added sulphites", *_FROM_TEN, apart=True, note=_OVER),
    )


def _anz_groups() -> tuple[Group, ...]:
    return (
        _group(_ANZ, "wheat", "wheat"),
        _group(_ANZ, "gluten-cereal", "gluten", "wheat", "barley", "oats", "rye"),
        _group(_ANZ, "tree-nut", "tree nuts", *_NINE_NUTS, note="each declared by name"),
        _group(_ANZ, "crustacean", "crustacean"),
        _group(_ANZ, "mollusc", "mollusc"),
        _group(_ANZ, "egg", "egg"),
        _group(_ANZ, "fish", "fish"),
        _group(_ANZ, "lupin", "lupin"),
        _group(_ANZ, "milk", "milk"),
        _group(_ANZ, "peanut", "peanut"),
        _group(_ANZ, "sesame", "sesame"),
        _group(_ANZ, "soy", "soy"),
        _group(_ANZ, "sulphites", "sulphites", *_FROM_TEN, note=_OVER),
    )


def _codex_groups() -> tuple[Group, ...]:
    # The text before 2024 was read; what the 2024 revision added was not, so its additions stand apart.
    cereals = ("wheat", "rye", "barley", "oats", "spelt")
    return (
        _group(_CODEX, "gluten-cereal", "cereals containing gluten", *cereals, note="and their hybridised strains"),
        _group(_CODEX, "crustacean", "crustacea"),
        _group(_CODEX, "egg", "eggs"),
        _group(_CODEX, "fish", "fish"),
        _group(_CODEX, "peanut", "peanuts"),
        _group(_CODEX, "soy", "soybeans"),
        _group(_CODEX, "milk", "milk"),
        _group(_CODEX, "tree-nut", "tree nuts", *_NINE_NUTS),
        _group(_CODEX, "sulphites", "sulphite", *_FROM_TEN, note=_OVER),
        _group(_CODEX_2024, "sesame", "sesame", apart=True),
        _group(_CODEX_2024, "buckwheat", "buckwheat", apart=True, note="where the country lists it"),
        _group(_CODEX_2024, "celery", "celery", apart=True, note="where the country lists it"),
        _group(_CODEX_2024, "lupin", "lupin", apart=True, note="where the country lists it"),
        _group(_CODEX_2024, "mustard", "mustard", apart=True, note="where the country lists it"),
    )


LISTS: Final[Mapping[str, Jurisdiction]] = {
    "us": Jurisdiction(id="us", short="US", title="United States list", groups=_us_groups()),
    "eu": Jurisdiction(id="eu", short="EU", title="European Union list", groups=_eu_groups(_EU)),
    "uk": Jurisdiction(id="uk", short="UK", title="United Kingdom list", groups=_eu_groups(_UK)),
    "ca": Jurisdiction(id="ca", short="Canada", title="Canadian list", groups=_ca_groups()),
    "anz": Jurisdiction(id="anz", short="ANZ", title="Australia and New Zealand list", groups=_anz_groups()),
    "codex": Jurisdiction(id="codex", short="Codex", title="Codex Alimentarius list", groups=_codex_groups()),
}
