"""``linebook templates``: lists the templates and themes, tells what each gets, and copies originals out to change."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, Final, NoReturn

import click
from click.shell_completion import CompletionItem

from linebook.cli.options import find_house, stop_on_faults

if TYPE_CHECKING:
    from linebook.cli.template_pages import Template, ThemeLine
    from linebook.model.house import House
    from linebook.templating.templates import Templates

TAGS: Final = "tags"
WORDS: Final = "words"
_ALL: Final = "all"


class _NameType(click.ParamType[str]):
    name = "name"

    def shell_complete(self, ctx: click.Context, param: click.Parameter, incomplete: str) -> list[CompletionItem]:
        return [CompletionItem(name) for name in (*_originals(), TAGS, WORDS) if name.startswith(incomplete)]


@click.command(short_help="List templates and themes, tell what each gets, copy them out.")
@click.argument("names", metavar="[HOUSE] [NAME]...", nargs=-1, type=_NameType())
@click.option("--house", help="The house folder, another way to name it.")
@click.option("--copy", "copied", multiple=True, type=_NameType(), metavar="NAME", help="Copy it out; may be repeated.")
@click.option(
    "-o",
    "--output",
    type=click.Path(path_type=Path, file_okay=False),
    help="Copy to this folder. Default: templates/ of the house. Without --copy: copy all.",
)
@click.option("--force", is_flag=True, help="Write over a copy that is there.")
def command(
    names: tuple[str, ...], house: str | None, copied: tuple[str, ...], output: Path | None, force: bool
) -> None:
    """List every template and theme and say which ones HOUSE uses, or tell all about NAME.

    NAME is a template as station-card, a theme as standard, `tags` for the tags a sheet is written in, or `words` for
    the words a template can ask for. A copy in templates/ of the house takes the place of the original, file by file;
    in theme.yaml a house gives only what it changes.
    """
    topics = [name for name in names if _stem(name) in _topics()]
    folders = [name for name in names if name not in topics]
    for word in (*[name for name in folders if not Path(name).is_dir()], *folders[1:]):
        _refuse(word)
    given = house or (folders[0] if folders else None)
    if copied or output is not None:
        wanted = (*copied, *topics) or (_ALL,)
        for word in wanted:
            if word != _ALL and _stem(word) not in _originals():
                _refuse(word)
        _copy(wanted, output or find_house(given)[0] / "templates", force=force)
        return
    for at, topic in enumerate(topics):
        click.echo("\n" * bool(at) + "\n".join(_page(_stem(topic), given)))
    if not topics:
        click.echo("\n".join(_listing(given)))


# -- telling


def _listing(given: str | None) -> Sequence[str]:
    from linebook.cli.template_pages import listing

    place, found = _found(given)
    own = place / "theme.yaml" if place else None
    themes, own_theme = _themes(given, own if own and own.is_file() else None)
    return [
        *listing(found, themes, own_theme),
        "",
        "What one gets:        linebook templates station-card",
        "The tags of a sheet:  linebook templates tags",
        "A copy to change:     linebook templates --copy station-card",
    ]


def _themes(given: str | None, own: Path | None) -> tuple[list[ThemeLine], str]:
    """Return the themes that come with linebook, the used one marked, and what to say of the house's own."""
    from linebook.cli.template_pages import ThemeLine
    from linebook.house_theme import STANDARD, find_themes, theme_in_use

    kitchen = _kitchen(given)
    used, problem = (STANDARD, "") if kitchen is None else theme_in_use(kitchen[0].file, kitchen[1])
    lines = []
    for name, (folder, file) in find_themes().items():
        text = (folder / file).read_text(encoding="utf-8")
        about = text.splitlines()[0].removeprefix("#").strip() if text.startswith("#") else ""
        lines.append(ThemeLine(name=name, used=name == used, purpose=about))
    said = f"{own.as_posix()} is laid over {used}" if own else ""
    return lines, problem or said


def _kitchen(given: str | None) -> tuple[House, Path] | None:
    """Return the house, or None where there is none here and none was named, or where it has faults."""
    from linebook.pipeline import load_house

    try:
        folder, shown = find_house(given)
    except click.UsageError:
        if given is not None:
            raise
        return None
    loaded = load_house(folder, shown, ())
    return (loaded.value, folder) if loaded.value is not None else None


def _page(topic: str, given: str | None) -> Sequence[str]:
    from linebook.cli import template_pages as pages
    from linebook.house_theme import find_themes

    if topic == TAGS:
        return [*pages.tags_page()]
    if topic == WORDS:
        from linebook.documents.catalogue import ENGLISH_CATALOGUE

        return [*pages.words_page(sorted(ENGLISH_CATALOGUE.sentences.items()))]
    themes = find_themes()
    if topic in themes:
        folder, file = themes[topic]
        return [*pages.theme_page(topic, (folder / file).read_text(encoding="utf-8"), file)]
    _, found = _found(given)
    one = next(template for template in found if template.stem == topic)
    return [*pages.template_page(one, _templates(given)[1], found)]


def _templates(given: str | None) -> tuple[Path | None, Templates]:
    """Return the folder of the house's own templates, where there is a house, and all templates."""
    from linebook.house_theme import template_folders
    from linebook.templating.templates import Templates

    try:
        folder, _ = find_house(given)
    except click.UsageError:
        if given is not None:
            raise
        return None, Templates(template_folders(Path("no house")))
    return folder / "templates", Templates(template_folders(folder))


def _found(given: str | None) -> tuple[Path | None, tuple[Template, ...]]:
    """Return the folder of the house's own templates and every template, the one in use of each."""
    from linebook.cli.template_pages import Template
    from linebook.house_theme import find_templates
    from linebook.templating.outline import purpose

    place, templates = _templates(given)
    found = []
    for file, folder in find_templates().items():
        original = (folder / file).read_text(encoding="utf-8")
        own = place is not None and ((place / file).exists() or (place / file).is_symlink())
        used = templates.find(file).value if own else None
        if own and used is None:
            stop_on_faults(templates.find(file).faults)
        shown = used.path if used is not None else f"linebook's own {file}"
        found.append(Template(file=file, own=own, shown=shown, purpose=purpose(original)))
    return place, tuple(found)


# -- copying


def _copy(names: Sequence[str], target: Path, *, force: bool) -> None:
    from linebook.source.files import leads_out
    from linebook.writing.atomic import write_files

    originals = _originals()
    wanted: dict[Path, tuple[str, Path]] = {}
    for name in names:
        stems = [stem for stem in originals if stem not in _theme_names()] if name == _ALL else [_stem(name)]
        for stem in stems:
            file = target / ("theme.yaml" if stem in _theme_names() else originals[stem].name)
            if wanted.get(file, ("", originals[stem]))[1] != originals[stem]:
                raise click.UsageError(f"`{wanted[file][0]}` and `{stem}` are both themes; a house has one theme.yaml.")
            wanted[file] = (stem, originals[stem])
    there = [file.as_posix() for file in wanted if file.exists() or file.is_symlink()]
    if there and not force:
        several = "are" if len(there) > 1 else "is"
        raise click.UsageError(
            f"{', '.join(f'`{file}`' for file in there)} {several} there already; "
            "move it away, copy to another folder with -o, or write over it with --force."
        )
    if target.name == "templates" and leads_out(target.parent, PurePosixPath("templates")):
        raise click.UsageError(f"`{target.as_posix()}` leads out of the house folder.")
    try:
        write_files([(file, original.read_bytes()) for file, (_, original) in wanted.items()])
    except OSError as mistake:
        click.echo(f"`{mistake.filename or target}` cannot be written: {mistake.strerror}", err=True)
        sys.exit(1)
    for file in wanted:
        click.echo(file.as_posix())
    if any(file.name == "theme.yaml" for file in wanted):
        click.echo("In theme.yaml keep only what you change: the rest then follows the theme it is based on.")


def _originals() -> dict[str, Path]:
    """Return what can be copied by name: templates by their stem, themes by their name."""
    from linebook.house_theme import find_templates, find_themes
    from linebook.templating.templates import SUFFIX

    made = {file.removesuffix(SUFFIX): folder / file for file, folder in find_templates().items()}
    return made | {name: folder / file for name, (folder, file) in find_themes().items()}


def _theme_names() -> tuple[str, ...]:
    from linebook.house_theme import find_themes

    return tuple(find_themes())


def _topics() -> tuple[str, ...]:
    return (*_originals(), TAGS, WORDS)


def _stem(name: str) -> str:
    from linebook.templating.templates import SUFFIX

    return name.removesuffix(SUFFIX).replace("-", "_") if name not in _theme_names() else name


def _refuse(name: str) -> NoReturn:
    from linebook.source.nearest import nearest

    known = [stem.replace("_", "-") for stem in _topics()]
    near = nearest(name.replace("_", "-"), known)
    hint = f"Did you mean `{near}`?" if near else "`linebook templates` lists them all."
    raise click.UsageError(f"There is no template or theme `{name}`, nor a folder. {hint}")
