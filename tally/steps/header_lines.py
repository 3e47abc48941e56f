"""At which lines of a TOML text its steps begin; the reader of TOML itself does not tell."""

from __future__ import annotations

import re

_HEADER = re.compile(r"\s*\[\[\s*(?:steps|\"steps\"|'steps')\s*\]\]\s*(?:#.*)?")
_QUOTES = re.compile(
    r'''"""|\'\'\'|"(?:[^"\\\n]|\\.)*"|\'[^\'\n]*\'|#[^\n]*''',
)


def header_lines(text: str) -> tuple[int, ...]:
    """Return the line of each header [[steps]], counted from 1.

    A header inside a text of several lines is none.

    >>> header_lines('id = "x"\\n[[steps]]\\nid = "a"\\n[[steps]] # b')
    (2, 4)
    """
    found: list[int] = []
    inside = ""
    for number, line in enumerate(text.split("\n"), start=1):
        if not inside and _HEADER.fullmatch(line):
            found.append(number)
        inside = _left_open(line, inside)
    return tuple(found)


def _left_open(line: str, inside: str) -> str:
    """Return the quotes of a text of several lines that is open after this line, or nothing."""
    at = 0
    while True:
        if inside:
            end = _closing(line, inside, at)
            if end < 0:
                return inside
            inside, at = "", end
        token = _QUOTES.search(line, at)
        if token is None:
            return ""
        at = token.end()
        if token.group() in (_BASIC, _LITERAL):
            inside = token.group()


_BASIC, _LITERAL = '"' * 3, "'" * 3


def _closing(line: str, quotes: str, at: int) -> int:
    """Return where the closing quotes end, or -1; a backslash keeps a quote in a basic text."""
    while at < len(line):
        if quotes == _BASIC and line[at] == "\\":
            at += 2
        elif line.startswith(quotes, at):
            return at + len(quotes)
        else:
            at += 1
    return -1
