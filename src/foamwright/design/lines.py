"""Find the line of every key in a TOML text that the standard reader has accepted."""

import re
from collections.abc import Mapping

from foamwright.design.keys import Path

_BARE = re.compile(r"[A-Za-z0-9_-]+")
_SCALAR = re.compile(r"[^,\]}#\n]*")
_BLANK = re.compile(r"(?:[ \t\r\n]+|#[^\n]*)*")
_ESCAPES = {"n": "\n", "t": "\t", "r": "\r", '"': '"', "\\": "\\"}


class _Scanner:
    """A walk over the text, noting where each key stands."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.lines: dict[Path, int] = {(): 1}
        self.counts: dict[Path, int] = {}

    def line(self) -> int:
        return self.text.count("\n", 0, self.at) + 1

    def skip_blank(self) -> None:
        found = _BLANK.match(self.text, self.at)
        self.at = found.end() if found else self.at

    def skip_spaces(self) -> None:
        while self.at < len(self.text) and self.text[self.at] in " \t":
            self.at += 1

    def note(self, path: Path) -> None:
        """Remember the first place of a key, and of the tables it makes on the way."""
        line = self.line()
        for length in range(1, len(path) + 1):
            self.lines.setdefault(path[:length], line)

    def document(self) -> None:
        table: Path = ()
        self.skip_blank()
        while self.at < len(self.text):
            if self.text[self.at] == "[":
                table = self.header()
            else:
                self.pair(table)
            self.skip_blank()

    def header(self) -> Path:
        start = self.at
        double = self.text.startswith("[[", self.at)
        self.at += 2 if double else 1
        names = self.key()
        self.at = self.text.index("]", self.at) + (2 if double else 1)
        end, self.at = self.at, start
        path: Path = ()
        for place, name in enumerate(names):
            path = (*path, name)
            last = place == len(names) - 1
            if last and double:
                self.counts[path] = self.counts.get(path, -1) + 1
            if path in self.counts:
                self.note(path)
                path = (*path, self.counts[path])
        self.note(path)
        self.at = end
        return path

    def key(self) -> list[str]:
        names: list[str] = []
        while True:
            self.skip_spaces()
            if self.text[self.at] in "\"'":
                names.append(self.string())
            else:
                found = _BARE.match(self.text, self.at)
                names.append(found[0] if found else "")
                self.at = found.end() if found else self.at
            self.skip_spaces()
            if not self.text.startswith(".", self.at):
                return names
            self.at += 1

    def pair(self, table: Path) -> None:
        start = self.at
        path = (*table, *self.key())
        end, self.at = self.at, start
        self.note(path)
        self.at = self.text.index("=", end) + 1
        self.skip_spaces()
        self.value(path)

    def value(self, path: Path) -> None:
        mark = self.text[self.at : self.at + 1]
        if mark and mark in "\"'":
            self.string()
        elif mark == "[":
            self.array(path)
        elif mark == "{":
            self.inline(path)
        else:
            found = _SCALAR.match(self.text, self.at)
            self.at = found.end() if found else self.at + 1

    def array(self, path: Path) -> None:
        self.at += 1
        index = 0
        self.skip_blank()
        while self.text[self.at] != "]":
            self.note((*path, index))
            self.value((*path, index))
            index += 1
            self.skip_blank()
            if self.text[self.at] == ",":
                self.at += 1
                self.skip_blank()
        self.at += 1

    def inline(self, path: Path) -> None:
        self.at += 1
        self.skip_blank()
        while self.text[self.at] != "}":
            self.pair(path)
            self.skip_blank()
            if self.text[self.at] == ",":
                self.at += 1
                self.skip_blank()
        self.at += 1

    def string(self) -> str:
        quote = self.text[self.at]
        mark = quote * 3 if self.text.startswith(quote * 3, self.at) else quote
        self.at += len(mark)
        pieces: list[str] = []
        while not self.text.startswith(mark, self.at):
            letter = self.text[self.at]
            if letter == "\\" and quote == '"':
                self.at += 1
                letter = _ESCAPES.get(self.text[self.at], self.text[self.at])
            pieces.append(letter)
            self.at += 1
        self.at += len(mark)
        while len(mark) == 3 and self.text.startswith(quote, self.at):  # """a"""" ends in a quote
            pieces.append(quote)
            self.at += 1
        return "".join(pieces)


def key_lines(text: str) -> dict[Path, int]:
    r"""The line of every key, table and list entry.

    Args:
        text: TOML that the standard reader accepts. [-]

    Returns:
        Names and indexes -> line from 1; the whole file stands at line 1. [-]

    Source:
        TOML 1.0.0, toml.io; tested against documents of every kind of key and value.

    Example:
        >>> key_lines('name = "a"\n[[wing.panel]]\nspan = "1 m"')[("wing", "panel", 0, "span")]
        3
    """
    scanner = _Scanner(text.replace("\r\n", "\n"))
    scanner.document()
    return scanner.lines


def line_of(path: Path, lines: Mapping[Path, int]) -> int:
    """The line of a key, or of the nearest table around it that the file has.

    Args:
        path: Names and indexes of the key. [-]
        lines: From `key_lines`. [-]

    Returns:
        Line from 1. [-]

    Source:
        Definition.

    Example:
        >>> line_of(("wing", "position"), {(): 1, ("wing",): 4})
        4
    """
    while path and path not in lines:
        path = path[:-1]
    return lines.get(path, 1)
