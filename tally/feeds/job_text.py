"""The tables of a job file as TOML text: what a person may read, change and have read again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from tally.feeds.job_faults import LIMITS_TABLE
from tally.feeds.job_words import TOP
from tally.units.text import unprintable

_MARKS = {"\\": "\\\\", '"': '\\"'}


def job_text(document: Mapping[str, Any], title: str = "") -> str:
    """Return the text of a job file.

    Parameters
    ----------
    document : mapping
        The tables: text, whole numbers, true or false, lists of text, tables and lists of tables
    title : str, optional
        What stands at the head of the file, as a comment

    Examples
    --------
    >>> print(job_text({"running_order": "shoe 1", "mud": {"weight": "10.2 lb/gal"}}), end="")
    running_order = "shoe 1"
    <BLANKLINE>
    [mud]
    weight = "10.2 lb/gal"
    """
    head = [f"# {''.join(map(_plain, title))}"] if title else []
    parts = [head, _lines({key: document[key] for key in TOP if key in document})]
    for name, table in document.items():
        if name in TOP:
            continue
        if name == LIMITS_TABLE:
            parts.append([f"[{name}]", *_limits(table)])
        elif isinstance(table, Sequence):
            parts += [[f"[[{name}]]", *_lines(each)] for each in table]
        else:
            parts.append([f"[{name}]", *_lines(table)])
    return "".join("\n".join(part) + "\n\n" for part in parts if part).removesuffix("\n")


def _lines(table: Mapping[str, Any]) -> list[str]:
    return [f"{key} = {_value(value)}" for key, value in table.items()]


def _limits(table: Mapping[str, Mapping[str, Any]]) -> Iterator[str]:
    for key, limit in table.items():
        yield f"{key} = {{ {', '.join(_lines(limit))} }}"


def _value(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value)
    if isinstance(value, list):
        return f"[{', '.join(_value(each) for each in value)}]"
    return f'"{"".join(_escaped(char) for char in value)}"'


def _escaped(char: str) -> str:
    """Return a character so that TOML reads it again and no terminal obeys it."""
    if char in _MARKS:
        return _MARKS[char]
    if not unprintable(char):
        return char
    code = ord(char) if not 0xD800 <= ord(char) <= 0xDFFF else 0xFFFD
    return f"\\u{code:04X}" if code <= 0xFFFF else f"\\U{code:08X}"


def _plain(char: str) -> str:
    return " " if unprintable(char) else char
