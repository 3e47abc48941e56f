"""The words of headings and of rows, in the languages of the people who write pipe lists.

English, German, French, Spanish, Portuguese, Norwegian, Dutch and Russian: `words.toml` has them
as people write them; here they are compared in small letters and without accents.
"""

from __future__ import annotations

import re
import tomllib
import unicodedata
from collections.abc import Iterator, Mapping
from functools import cache, lru_cache
from importlib.resources import files
from typing import Any

_LETTERS = str.maketrans(
    {"\u00df": "ss", "\u00f8": "o", "\u00e6": "ae", "\u0153": "oe", "\u0131": "i", "\u0142": "l"}
)
_TOKENS = re.compile(r"[^\W_]+|[#'\"]")
_LONGEST = 80
"""Characters of a text that can be a heading."""

NUMBER, TUBE, JOINT, ORDER, ITEM = "number", "tube", "joint", "order", "item"
LENGTH, OVERALL, RUNNING = "length", "overall", "running"
TOTAL, SUM, LOSS, OTHER = "total", "sum", "loss", "other"
HEAT, SERIAL, REMARK, TYPE, PIPE = "heat", "serial", "remark", "type", "pipe"
SIZE, WEIGHT, GRADE, THREAD = "size", "weight", "grade", "thread"


@cache
def _known() -> dict[str, Any]:
    return tomllib.loads(files(__package__).joinpath("words.toml").read_text("utf-8"))


@cache
def _headings() -> Mapping[str, re.Pattern[str]]:
    return {sense: _pattern(known) for sense, known in _known()["heading"].items()}


@cache
def _units() -> Mapping[str, str]:
    return {word: unit for unit, known in _known()["unit"].items() for word in _written(known)}


@cache
def _kinds() -> Mapping[str, str]:
    return {word: kind for kind, known in _known()["kind"].items() for word in _written(known)}


@cache
def _label(name: str) -> re.Pattern[str]:
    return _pattern(_known()[name])


def _written(by_language: Mapping[str, str]) -> Iterator[str]:
    """Yield the words of every language as they are compared, low lines kept."""
    for known in by_language.values():
        for word in known.split():
            yield "_".join(plain_words(word.replace("_", " ")))


def _pattern(by_language: Mapping[str, str]) -> re.Pattern[str]:
    words = [word for known in by_language.values() for word in known.split()]
    return re.compile("|".join(dict.fromkeys(map(_starred, words))))


def _starred(word: str) -> str:
    parts = ("".join(plain_words(part)) for part in word.split("*"))
    return ".*".join(re.escape(part) for part in parts)


def plain_words(text: str) -> tuple[str, ...]:
    """Return the words of a text in small letters, without accents and marks.

    >>> plain_words("Rohr-L\\u00e4nge (m)"), plain_words("N\\u00ba de junta")
    (('rohr', 'lange', 'm'), ('no', 'de', 'junta'))
    """
    return _plain_words(text) if len(text) <= _LONGEST else ()


@lru_cache(maxsize=4096)
def _plain_words(text: str) -> tuple[str, ...]:
    folded = text.replace("\u00b0", "o ").casefold().translate(_LETTERS)
    apart = unicodedata.normalize("NFKD", folded).casefold()
    return tuple(_TOKENS.findall("".join(c for c in apart if not unicodedata.combining(c))))


def senses(text: str) -> frozenset[str]:
    """Return what the words of a heading may mean.

    >>> sorted(senses("Rohr-Nr."))
    ['number', 'tube']
    """
    return _senses(plain_words(text))


@lru_cache(maxsize=4096)
def _senses(words: tuple[str, ...]) -> frozenset[str]:
    """Return the senses of words, and of all of them written as one ("s/n", "o.a.l.")."""
    forms = (*words, "".join(words)) if len(words) > 1 else words
    return frozenset(
        sense
        for sense, known in _headings().items()
        if any(known.fullmatch(form) for form in forms)
    )


def unit_of(text: str) -> str:
    """Return the unit of length that a heading names, or nothing.

    >>> unit_of("L\\u00e4nge [m]"), unit_of("length_ft"), unit_of("Heat")
    ('m', 'ft', '')
    """
    found = [_units()[word] for word in plain_words(text) if word in _units()]
    return found[-1] if found else ""


def only_unit(text: str) -> bool:
    """Return whether a heading is a unit of length and nothing else."""
    words = plain_words(text)
    return bool(words) and all(word in _units() for word in words)


def only_length_words(text: str) -> bool:
    """Return whether a heading names a unit and how it was measured, like "overall (ft)"."""
    words = plain_words(text)
    ways = {OVERALL, RUNNING}
    measured = [word for word in words if word in ("up", "all") or senses(word) & ways]
    return bool(measured) and all(word in _units() or word in measured for word in words)


def says_total(text: str) -> bool:
    """Return whether a text is the label of a sum.

    >>> says_total("Gesamtl\\u00e4nge"), says_total("Brought forward"), says_total("A12")
    (True, True, False)
    """
    words = plain_words(text)
    forward = "forward" in words and any(_label("forward").fullmatch(word) for word in words)
    return forward or any(_label("total").fullmatch(word) for word in words)


def says_page(text: str) -> bool:
    """Return whether a text begins the number of a page."""
    words = plain_words(text)
    return bool(words) and _label("page").fullmatch(words[0]) is not None


def kind_of(text: str) -> str:
    """Return the kind of item that a text names, or nothing.

    >>> kind_of("Pup joint"), kind_of("bent")
    ('pup', '')
    """
    return _kinds().get("_".join(plain_words(text)), "")
