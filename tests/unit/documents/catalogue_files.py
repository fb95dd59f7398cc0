"""The gettext files beside the English table: made from it and from what a translator has written.

Run by hand after a change of the words: ``python tests/unit/documents/catalogue_files.py`` writes ``en.po`` anew, brings
``es.po`` up to date (a new sentence comes in untranslated, one that is gone is dropped) and compiles ``es.mo``.
"""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

from linebook.documents import catalogue
from linebook.documents.catalogue import counted_keys
from linebook.documents.english import ENGLISH

FOLDER = Path(catalogue.__file__).parent / "catalogues"
PLURALS = {
    "en": (2, "(n != 1)"),
    # the Unicode rule for whole numbers: a million of something is *un millón de*
    "es": (3, "(n == 1 ? 0 : n != 0 && n % 1000000 == 0 ? 1 : 2)"),
}


class _Headed(Catalog):
    """A catalogue whose head never depends on the day or on Babel's version."""

    @property
    def num_plurals(self) -> int:
        """Return how many sentences one that is counted has."""
        return PLURALS[str(self.locale)][0]

    @property
    def mime_headers(self) -> list[tuple[str, str]]:
        """Return what is written at the head."""
        count, rule = PLURALS[str(self.locale)]
        return [
            ("Project-Id-Version", "linebook"),
            ("Language", str(self.locale)),
            ("MIME-Version", "1.0"),
            ("Content-Type", "text/plain; charset=utf-8"),
            ("Content-Transfer-Encoding", "8bit"),
            ("Plural-Forms", f"nplurals={count}; plural={rule};"),
        ]


def sentences() -> list[tuple[str, str | tuple[str, str]]]:
    """Return key and sentence of all that is translated; of what goes with a number, both sentences under one key."""
    counted = counted_keys()
    found: list[tuple[str, str | tuple[str, str]]] = []
    for key, sentence in ENGLISH.items():
        stem, _, form = key.rpartition(".")
        if stem in counted and form == "one":
            found.append((stem, (sentence, ENGLISH[f"{stem}.many"])))
        elif stem not in counted or form != "many":
            found.append((key, sentence))
    return found


def template() -> str:
    """Return ``en.po``: the sentences by key, translated into themselves."""
    made = _empty("en")
    for key, sentence in sentences():
        made.add(sentence, sentence, context=key)
    return _written(made)


def updated(language: str, before: str) -> str:
    """Return the text of a catalogue with the sentences there are now; what it has translated is kept."""
    known = read(language, before)
    made = _empty(language)
    for key, sentence in sentences():
        message = known.get(sentence if isinstance(sentence, str) else sentence[0], context=key)
        made.add(sentence, message.string if message and message.id == sentence else "", context=key)
    return _written(made)


def read(language: str, text: str) -> Catalog:
    """Return a catalogue as Babel reads it."""
    return read_po(BytesIO(text.encode()), locale=language)


def compiled(language: str, text: str) -> bytes:
    """Return the bytes of the ``.mo`` file of a catalogue."""
    made = _Headed(locale=language)
    for message in read(language, text):
        if message.id:
            made.add(message.id, message.string, context=message.context)
    file = BytesIO()
    write_mo(file, made)
    return file.getvalue()


def _empty(language: str) -> Catalog:
    return _Headed(locale=language)


def _written(made: Catalog) -> str:
    file = BytesIO()
    write_po(file, made, width=100, omit_header=True)
    head = "".join(f'"{name}: {value}\\n"\n' for name, value in made.mime_headers)
    return f'msgid ""\nmsgstr ""\n{head}\n{file.getvalue().decode().strip()}\n'


if __name__ == "__main__":
    (FOLDER / "en.po").write_text(template())
    spanish = FOLDER / "es.po"
    text = updated(
        "es", spanish.read_text() if spanish.exists() else template().replace("Language: en", "Language: es")
    )
    spanish.write_text(text)
    (FOLDER / "es.mo").write_bytes(compiled("es", text))
    for message in read("es", text):
        if message.id and not all(message.string if isinstance(message.string, tuple) else (message.string,)):
            print(f"not translated: {message.context}: {message.id}")
