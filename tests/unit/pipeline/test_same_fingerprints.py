"""What changes no sheet changes no fingerprint: files moved, YAML written another way, another dish edited."""

from __future__ import annotations

import random
import re
import shutil
from pathlib import Path

import pytest
import yaml
from sheets_said import DEMO, said


def marks(root: Path, monkeypatch: pytest.MonkeyPatch) -> dict[str, str]:
    sheets = said(root, monkeypatch)
    assert sheets is not None
    return {id_: fingerprint for id_, (fingerprint, _) in sheets.items()}


@pytest.fixture(scope="module")
def before() -> dict[str, str]:
    with pytest.MonkeyPatch.context() as patch:
        return marks(DEMO, patch)


@pytest.fixture
def root(tmp_path: Path) -> Path:
    shutil.copytree(DEMO, tmp_path / "specs")
    return tmp_path / "specs"


def test_moved_files_change_nothing(
    root: Path, before: dict[str, str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for at, path in enumerate(sorted((root / "pantry").glob("*.yaml"), reverse=True)):
        path.rename(path.with_name(f"shelf-{at}.yaml"))
    moved = tmp_path / "another" / "house of ours"
    moved.parent.mkdir()
    root.rename(moved)
    assert marks(moved, monkeypatch) == before


@pytest.mark.parametrize("seed", range(3))
def test_yaml_written_another_way_changes_nothing(
    root: Path, before: dict[str, str], monkeypatch: pytest.MonkeyPatch, seed: int
) -> None:
    """Front matter as PyYAML writes it, its keys in another order, with comments and more white space."""
    chance = random.Random(seed)
    for path in sorted((*root.glob("dishes/*.md"), *root.glob("components/*.md"))):
        if path.name.count(".") > 1:
            continue
        _, front, body = re.split(r"^---\n", path.read_text(encoding="utf-8"), maxsplit=2, flags=re.MULTILINE)
        node = yaml.load(front, yaml.BaseLoader)
        keys = list(node)
        chance.shuffle(keys)
        plain = yaml.dump({key: node[key] for key in keys}, allow_unicode=True, sort_keys=False, width=60)
        path.write_text(f"---\n# {seed}\n\n{plain}\n---\n{body}", encoding="utf-8")
    assert marks(root, monkeypatch) == before


def test_a_dish_a_component_and_an_item_under_other_ids_change_nothing(
    root: Path, before: dict[str, str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """The ids sort as before, since lists of a few things stand in the order of their ids."""
    for old in ("leeks-almond", "mint-oil", "fine-salt"):
        for path in [*root.rglob("*.md"), *root.rglob("*.yaml")]:
            text = path.read_text(encoding="utf-8")
            path.write_text(re.sub(rf"(?<![\w-]){old}(?![\w-])", f"{old}-2", text), encoding="utf-8")
            if path.name.partition(".")[0] == old:
                path.rename(path.with_name(path.name.replace(old, f"{old}-2")))
    after = marks(root, monkeypatch)
    assert "station-card:leeks-almond-2" in after
    assert {id_.replace("-2", ""): fingerprint for id_, fingerprint in after.items()} == before


def test_an_edit_of_one_dish_changes_its_own_sheets_and_the_contents_alone(
    root: Path, before: dict[str, str], monkeypatch: pytest.MonkeyPatch
) -> None:
    for dish, own in (("beet-tartare", set()), ("honey-cake", {"station-card:honey-cake", "line-cover:pastry"})):
        path = root / f"dishes/{dish}.md"
        text = path.read_text(encoding="utf-8")
        path.write_text(re.sub(r"^2\. ", "2. Slowly: ", text, count=1, flags=re.MULTILINE), encoding="utf-8")
        after = marks(root, monkeypatch)
        assert {id_ for id_ in before if before[id_] != after[id_]} == own, dish
        assert set(after) == set(before)
        path.write_text(text, encoding="utf-8")


def test_an_edit_of_a_component_changes_no_sheet_of_what_does_not_carry_it(
    root: Path, before: dict[str, str], monkeypatch: pytest.MonkeyPatch
) -> None:
    path = root / "components/mint-oil.md"
    text = path.read_text(encoding="utf-8")
    path.write_text(re.sub(r"^1\. ", "1. Slowly: ", text, count=1, flags=re.MULTILINE), encoding="utf-8")
    after = marks(root, monkeypatch)
    assert {id_ for id_ in before if before[id_] != after[id_]} == {"batch-card:mint-oil", "line-cover:larder"}
