"""YAML written in the plain way nearly all of it is: fields by their indent, lists of dashes, braces on one line.

A YAML parser costs more time than the rest of reading a house, so it is called only for a text that is not as plain
as this. Whatever could mean something else in YAML is left to it; a test compares the two. No fault is found here.
"""

from __future__ import annotations

import re
from typing import Final, NoReturn

from linebook.source.characters import is_ordinary, is_smart_quoted
from linebook.source.nodes import Entry, MappingNode, Node, Scalar, SequenceNode
from linebook.source.spans import SourceFile, Span

_LONGEST_TEXT: Final = 2000
_DEEPEST: Final = 10

_KEY: Final = r"([A-Za-z0-9_][A-Za-z0-9_-]{0,60}(?: [A-Za-z0-9_][A-Za-z0-9_-]{0,30}){0,30})"
# A text of a card that is the name of its translation may have commas and brackets in it, between quotes.
_QUOTED_KEY: Final = r"\"([A-Za-z0-9À-ÖØ-öø-ÿ][A-Za-z0-9À-ÖØ-öø-ÿ ,.;:'()/_-]{0,200})\""
# The first character of a text that YAML cannot take for a sign of its own.
_BEGIN: Final = r"(?:[^\s.\-?:,\[\]{}#&*!|>'\"%@`]|-(?=[0-9]))"
_IN_BRACES: Final = rf"({_BEGIN}[^,?\[\]{{}}\n]*)[ \n]*"
# Braces as nearly all are typed: nothing but names and short plain texts between single commas and colons.
_SHORT_TEXT: Final = rf"{_BEGIN}(?:[^,?\[\]{{}}\n:#]*[^,?\[\]{{}}\n:# ])?"
_PLAIN_PAIR: Final = rf"[A-Za-z0-9_][A-Za-z0-9_-]{{0,60}}: {_SHORT_TEXT}"
_PLAIN_BRACES: Final = rf"\{{((?:{_PLAIN_PAIR}(?:, (?=\w)|(?=\}})))+)\}}"
_BRACES: Final = re.compile(_PLAIN_BRACES)
_LINE: Final = re.compile(
    rf"( *)(- +)?(?:(?:{_KEY}|{_QUOTED_KEY}):(?: +|(?=\n|\Z)))?"
    rf"(?:({_BEGIN}[^\n#]*[^\n#: ])|{_PLAIN_BRACES}(?=\n|\Z)|([^\n]*))(?:\n|\Z)"
)
_TEXT: Final = re.compile(rf"{_BEGIN}[^\n]*")
_PAIR: Final = re.compile(rf"[ \n]*{_KEY}: +(?:{_IN_BRACES}([,}}]))?")
_ITEM: Final = re.compile(rf"[ \n]*(?:{_IN_BRACES}([,\]]))?")
_QUOTED: Final = re.compile(r'"([^"\\\n]*)"')
_AFTER: Final = re.compile(r"(?: +(?:#[ #!][^\n]*)?)?(?:\n|\Z)")
_AFTER_HASH: Final = ("", " ", "#", "!")
"""What may follow the sign of a remark; before anything else it was hardly meant as one."""
_CURLY: Final = re.compile("[“”„‟‘’‚‛«»]")
_GAP: Final = re.compile(r"[ \n]*([,}\]])")

# A house has tens of thousands of nodes, and this way a named tuple is made in half the time.
_tuple: Final = tuple.__new__


def read_plain_yaml(source: SourceFile, start: int, end: int) -> MappingNode | None:
    """Return the fields between two offsets of a file, or None where a YAML parser must read them.

    Only a text of ordinary characters is taken, so that none of them needs a second look.
    """
    if not (source.is_ordinary or is_ordinary(source.text[start:end])):
        return None
    try:
        return _Reader(source, start, end).read()
    except _NotPlain:
        return None


class _NotPlain(Exception):
    """Something that only a YAML parser can judge."""


class _Block:
    """A group of fields, or a list, whose end has not been met.

    ``waiting`` is a field without its value yet and where its name begins; ``quoted`` are names typed between quotes.
    """

    __slots__ = ("column", "is_list", "items", "pairs", "quoted", "start", "waiting")

    def __init__(self, column: int, start: int, is_list: bool) -> None:
        self.column, self.start, self.is_list = column, start, is_list
        self.pairs: dict[str, tuple[int, str | Node, int]] = {}
        self.quoted: set[str] = set()
        self.waiting: tuple[str, int] | None = None
        self.items: list[Node] = []


class _Reader:
    """Reads line by line. ``opened`` are the blocks round the line, the innermost last.

    ``has_curly`` is true where a text may stand between quotation marks that only print.
    """

    __slots__ = ("at", "end", "has_curly", "opened", "root", "source", "text")

    def __init__(self, source: SourceFile, start: int, end: int) -> None:
        self.source, self.text, self.at, self.end = source, source.text, start, end
        self.has_curly = not source.text.isascii() and _CURLY.search(source.text, start, end) is not None
        self.opened: list[_Block] = []
        self.root: Node | None = None

    def read(self) -> MappingNode | None:
        text, end, opened, has_curly = self.text, self.end, self.opened, self.has_curly
        while self.at < end:
            line = _LINE.match(text, self.at, end)
            assert line is not None  # there is no line that it does not match
            self.at = line.end()
            indent, dash, key, quoted, plain, braces, rest = line.groups()
            if key is not None or quoted is not None:
                begin = line.end(2) if dash else line.end(1)
                block = opened[-1] if opened else None
                if dash or block is None or block.column != len(indent) or block.waiting or block.is_list:
                    block = self._group_for(len(indent), dash, line.start(2), begin)
                if quoted is not None:
                    block.quoted.add(quoted)
                name, pairs = key or quoted, block.pairs
                if name in pairs:
                    raise _NotPlain
                if plain is not None:
                    if ": " in plain:
                        raise _NotPlain
                    if has_curly or len(plain) > _LONGEST_TEXT:
                        self._judged(plain)
                    pairs[name] = begin, plain, line.start(5)
                elif braces is None and (not rest or rest[0] == "#"):
                    block.waiting = name, begin
                else:
                    pairs[name] = begin, self._value(line, plain, braces, rest), 0
            elif dash:
                block = opened[-1] if opened else None
                if block is None or not block.is_list or block.column != len(indent):
                    block = self._list_at(len(indent), line.start(2))
                block.items.append(self._value(line, plain, braces, rest))
            elif plain is not None or braces is not None or (rest and rest[0] != "#"):
                raise _NotPlain
        self._close_deeper(-1)
        return self.root if isinstance(self.root, MappingNode) else None

    def _group_for(self, column: int, dash: str | None, start: int, begin: int) -> _Block:
        """Return the group that a field belongs to; ``start`` is where its dash stands, ``begin`` its name."""
        if dash:  # the field is the first of an item
            self._list_at(column, start)
            return self._open(column + len(dash), begin, is_list=False)
        return self._group_at(column, begin)

    def _list_at(self, column: int, start: int) -> _Block:
        """Return the list whose dashes stand at this column; it may begin here, as the value of the field above."""
        self._close_deeper(column)
        last = self.opened[-1] if self.opened else _refuse()
        if last.is_list and last.column == column:
            return last
        if last.waiting is None:
            raise _NotPlain
        return self._open(column, start, is_list=True)

    def _group_at(self, column: int, start: int) -> _Block:
        """Return the group whose fields stand at this column; it may begin here, as the value of the field above."""
        self._close_deeper(column)
        if self.opened and self.opened[-1].is_list:
            self._close()  # the dashes of a list may stand right below the name of its field
        if not self.opened:
            return self._open(column, start, is_list=False) if self.root is None else _refuse()
        last = self.opened[-1]
        if last.is_list or (last.column == column) is not (last.waiting is None):
            raise _NotPlain
        return last if last.column == column else self._open(column, start, is_list=False)

    def _open(self, column: int, start: int, *, is_list: bool) -> _Block:
        if len(self.opened) == _DEEPEST:
            raise _NotPlain
        block = _Block(column, start, is_list)
        self.opened.append(block)
        return block

    def _close_deeper(self, column: int) -> None:
        while self.opened and self.opened[-1].column > column:
            self._close()

    def _close(self) -> None:
        done = self.opened.pop()
        if done.waiting is not None:
            raise _NotPlain
        node: Node
        if done.is_list:
            node = SequenceNode(tuple(done.items), Span(self.source, done.start, done.items[-1].span.end))
        else:
            _, last, start = next(reversed(done.pairs.values()))
            span = Span(self.source, done.start, start + len(last) if isinstance(last, str) else last.span.end)
            node = MappingNode(None, span, done.pairs)
            if done.quoted:
                node = MappingNode(tuple(self._as_quoted(one, done.quoted) for one in node.entries), span)
        if not self.opened:
            self.root = node
            return
        outer = self.opened[-1]
        if outer.is_list:
            outer.items.append(node)
        elif outer.waiting is not None:
            name, begin = outer.waiting
            outer.pairs[name] = begin, node, 0
            outer.waiting = None

    def _as_quoted(self, entry: Entry, quoted: set[str]) -> Entry:
        """Return an entry, its name with its quotes where it was typed between them."""
        name, (_, start, end), _ = entry.key
        if name not in quoted:
            return entry
        return Entry(Scalar(name, Span(self.source, start, end + 2), plain=False), entry.value)

    def _value(self, line: re.Match[str], plain: str | None, braces: str | None, rest: str) -> Node:
        """Return the value that begins on a line; in braces and brackets it may take more lines."""
        if braces is not None:
            return self._plain_braces(braces, line.start(6) - 1)
        if plain is not None:
            return self._scalar(self._text(plain), line.start(5))
        at = line.start(7)
        if rest[:1] in ("{", "[", '"'):
            node, end = self._signed(at, 0)
            after = _AFTER.match(self.text, end, self.end)
            self.at = after.end() if after else _refuse()
            return node
        return self._scalar(self._text(_before_remark(rest)), at)

    def _scalar(self, text: str, at: int) -> Scalar:
        return _tuple(Scalar, (text, _tuple(Span, (self.source, at, at + len(text))), True))

    def _text(self, text: str) -> str:
        """Return a text that stands by itself on a line."""
        if ": " in text:
            raise _NotPlain
        return self._judged(text) if self.has_curly or len(text) > _LONGEST_TEXT else text

    def _judged(self, text: str) -> str:
        if (self.has_curly and is_smart_quoted(text)) or len(text) > _LONGEST_TEXT:
            raise _NotPlain
        return text

    def _signed(self, at: int, depth: int) -> tuple[Node, int]:
        """Return what stands in braces, brackets or double quotes, and where it ends."""
        sign = self.text[at : at + 1]
        if sign == "{" and depth < _DEEPEST:
            return self._braces(at, depth)
        if sign == "[" and depth < _DEEPEST:
            return self._brackets(at, depth)
        quoted = _QUOTED.match(self.text, at, self.end)
        if quoted is None or len(quoted[1]) > _LONGEST_TEXT:
            raise _NotPlain
        return Scalar(quoted[1], Span(self.source, at, quoted.end()), plain=False), quoted.end()

    def _braces(self, start: int, depth: int) -> tuple[Node, int]:
        plain = _BRACES.match(self.text, start, self.end) if depth else None  # on a line of its own it was tried
        if plain is not None:
            return self._plain_braces(plain[1], start), plain.end()
        text, at = self.text, start + 1
        pairs: dict[str, tuple[int, str | Node, int]] = {}
        sign = "}" if text.startswith("}", at) else ","
        at += sign == "}"
        while sign == ",":
            pair = _PAIR.match(text, at, self.end)
            if pair is None or pair[1] in pairs:
                raise _NotPlain
            key, value, sign = pair.groups()
            at = pair.end()
            if value is None:
                node, at, sign = self._inner(at, depth)
                pairs[key] = pair.start(1), node, 0
            else:
                pairs[key] = pair.start(1), self._in_braces(value), pair.start(2)
        if sign != "}":
            raise _NotPlain
        return MappingNode(None, Span(self.source, start, at), pairs), at

    def _plain_braces(self, inside: str, start: int) -> Node:
        pairs: dict[str, tuple[int, str | Node, int]] = {}
        at = start + 1
        typed = inside.split(", ")
        for pair in typed:
            key, _, value = pair.partition(": ")
            begin = at + len(key) + 2
            pairs[key] = at, value, begin
            at = begin + len(value) + 2
        if len(pairs) < len(typed):
            raise _NotPlain  # a name stands there twice
        if self.has_curly or len(inside) > _LONGEST_TEXT:
            for pair in typed:
                self._judged(pair.partition(": ")[2])
        return MappingNode(None, Span(self.source, start, at - 1), pairs)

    def _brackets(self, start: int, depth: int) -> tuple[Node, int]:
        text, at = self.text, start + 1
        items: list[Node] = []
        sign = "]" if text.startswith("]", at) else ","
        at += sign == "]"
        while sign == ",":
            item = _ITEM.match(text, at, self.end)
            assert item is not None  # it matches nothing, too
            value, sign = item.groups()
            at = item.end()
            node: Node
            if value is None:
                node, at, sign = self._inner(at, depth)
            else:
                node = self._scalar(self._in_braces(value), item.start(1))
            items.append(node)
        if sign != "]":
            raise _NotPlain
        return SequenceNode(tuple(items), Span(self.source, start, at)), at

    def _inner(self, at: int, depth: int) -> tuple[Node, int, str]:
        """Return what is braced, bracketed or quoted inside braces or brackets, and the sign after it."""
        node, at = self._signed(at, depth + 1)
        gap = _GAP.match(self.text, at, self.end)
        return (node, gap.end(), gap[1]) if gap else _refuse()

    def _in_braces(self, text: str) -> str:
        if ": " in text or " #" in text or text[-1] in ": ":
            text = text.rstrip(" ")
            if ": " in text or " #" in text or text[-1] == ":":
                raise _NotPlain
        return self._judged(text)


def _before_remark(rest: str) -> str:
    """Return the text that stands on a line before a remark, if there is one."""
    remark = rest.find(" #")
    if remark >= 0 and rest[remark + 2 : remark + 3] not in _AFTER_HASH:
        raise _NotPlain
    text = (rest if remark < 0 else rest[:remark]).rstrip(" ")
    if text[-1:] in (":", "") or _TEXT.match(text) is None:
        raise _NotPlain
    return text


def _refuse() -> NoReturn:
    raise _NotPlain
