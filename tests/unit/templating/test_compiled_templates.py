"""The code that installing makes of the shipped templates is what jinja2 makes of them now, and is used for nothing else."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from linebook.source.files import read_source
from linebook.templating import shipped
from linebook.templating.compiling import FOLDER, compiled_files
from linebook.templating.templates import TemplateFolder, Templates

SHIPPED = Path(__file__).parents[3] / "templates"
NAMES = sorted(path.name for path in SHIPPED.glob("*.xml.j2"))


def opened(folder: Path) -> Templates:
    return Templates((TemplateFolder(path=folder, shown="templates"),))


def test_the_code_is_what_jinja2_makes_of_the_templates(monkeypatch):
    monkeypatch.setattr("linebook.templating.templates.printed_ahead", lambda *_: ())
    kept = {path.name: path.read_text("utf-8") for path in FOLDER.glob("*.py")}
    assert compiled_files(SHIPPED) == kept, "run: python -m linebook.templating.compiling"


@pytest.mark.parametrize("name", NAMES)
def test_a_shipped_template_is_not_compiled(name, monkeypatch):
    templates = opened(SHIPPED)
    monkeypatch.setattr(templates.running.environment, "parse", lambda *_: pytest.fail("parsed"))
    templates.running.get_ready(name)
    assert [source.path.rpartition("/")[2] for source in templates.sources_of(name)] == [name, *shipped._KNOWN[name][1]]


def test_a_template_that_prints_another_of_the_chefs_is_looked_over(tmp_path):
    shutil.copytree(SHIPPED, tmp_path / "templates")
    part = tmp_path / "templates" / "part_limit.xml.j2"
    part.write_text(part.read_text("utf-8") + "{{ sheet.__class__ }}", "utf-8")
    assert [fault.code for fault in opened(tmp_path / "templates").check("batch_card.xml.j2")] == ["LB705"]
    assert opened(tmp_path / "templates").check("set_up_sheet.xml.j2") == ()


def test_a_changed_template_is_the_one_that_is_used(tmp_path):
    text = (SHIPPED / "part_pass.xml.j2").read_text("utf-8")
    (tmp_path / "part_pass.xml.j2").write_text(f"{text}\n", "utf-8")
    changed = read_source(tmp_path, Path("part_pass.xml.j2"), "templates").value
    assert changed is not None
    assert shipped.code_ahead("part_pass.xml.j2", changed) is None


@pytest.mark.parametrize("other", ["JINJA", "FENCE"])
def test_another_jinja2_or_fence_compiles_for_itself(other, monkeypatch):
    monkeypatch.setattr(f"linebook.templating.compiled.contents.{other}", "another")
    monkeypatch.setattr(shipped, "_KNOWN", shipped._contents())
    templates = opened(SHIPPED)
    templates.running.get_ready("batch_card.xml.j2")
    assert templates.running.trees
