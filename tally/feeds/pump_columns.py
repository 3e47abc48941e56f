"""The columns of a recorded pump file: what each means and in which unit it stands."""

from __future__ import annotations

import re
import tomllib
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from tally.units import known_units, shown
from tally.units.spellings import unit_in

TIMES = ("clock", "elapsed", "time")
QUANTITIES = {
    "elapsed": "time",
    "volume": "volume",
    "rate": "flow rate",
    "pressure": "pressure",
    "density": "density",
    "strokes": "strokes",
}
ALL = (*TIMES, *QUANTITIES)
_LONGEST = 80
_UNIT_LIKE = re.compile(r"[(\[]([^)\]]*)[)\]]")


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its meaning, its place from 0, its title, its unit ("" while in doubt)."""

    meaning: str
    place: int
    title: str
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Columns:
    """The columns that were known, and the questions that are open about them."""

    known: Mapping[str, Column]
    doubts: Mapping[str, str]
    """By what is asked ("unit of volume", "column of pressure"), the question in a sentence."""


@cache
def _words() -> Mapping[str, str]:
    told = tomllib.loads(files(__package__).joinpath("pump_words.toml").read_text("utf-8"))
    return {word: meaning for meaning, each in told["column"].items() for word in each["words"]}


def _plain(text: str) -> str:
    apart = unicodedata.normalize("NFKD", text.casefold())
    letters = "".join(each for each in apart if not unicodedata.combining(each))
    return " ".join(re.findall(r"[a-z]+", letters))


def told_by(title: str) -> tuple[str, int, str]:
    """Return what a title means, how many letters say so, and the unit that it names.

    >>> told_by("Pump Pressure (psi)"), told_by("vol_bbl")
    (('pressure', 13, 'psi'), ('volume', 3, 'bbl'))
    """
    if len(title) > _LONGEST:
        return "", 0, ""
    bracketed = _UNIT_LIKE.search(title)
    bare = _plain(_UNIT_LIKE.sub(" ", title))
    unit = bracketed[1].strip() if bracketed else ""
    words = bare.split()
    for length in range(len(words), 0, -1):
        for start in range(len(words) - length + 1):
            word = " ".join(words[start : start + length])
            if word in _words():
                meaning = _words()[word]
                return meaning, len(word), unit or _trailing(title, meaning)
    return "", 0, ""


def _trailing(title: str, meaning: str) -> str:
    """Return the unit at the end of a title without brackets, if it ends in one."""
    for start in re.finditer(r"[\s_,:-]+", title):
        tail = title[start.end() :].strip()
        if tail and unit_for(meaning, tail):
            return tail
    return ""


def unit_for(meaning: str, unit: str) -> str:
    """Return the unit by its own name if it is one of what a column means, else nothing.

    >>> unit_for("rate", "bpm"), unit_for("rate", "psi")
    ('bbl/min', '')
    """
    quantity = QUANTITIES.get("elapsed" if meaning == "time" else meaning)
    return (unit_in(quantity, unit) or "") if quantity and unit else ""


def columns_of(cells: Sequence[str], asked: Mapping[str, str]) -> Columns:
    """Return what the titles of a file mean; an answer in `asked` goes before what is found."""
    found: dict[str, tuple[int, Column]] = {}
    rivals: dict[str, list[str]] = {}
    for place, title in enumerate(cells):
        meaning, letters, unit = told_by(title)
        if not meaning:
            continue
        rivals.setdefault(meaning, []).append(title)
        if meaning not in found or letters > found[meaning][0]:
            found[meaning] = (letters, Column(meaning, place, title.strip(), unit))
    known = {meaning: column for meaning, (_, column) in found.items()}
    doubts: dict[str, str] = {}
    for meaning, titles in rivals.items():
        _chosen(meaning, titles, cells, asked, known, doubts)
    for meaning in ("volume", "pressure"):
        _answered(meaning, cells, asked, known)
        if meaning not in known:
            doubts[f"column of {meaning}"] = f"Which column is the {meaning}? None is titled so."
    _units(known, asked, doubts)
    return Columns(known, doubts)


def _answered(
    meaning: str, cells: Sequence[str], asked: Mapping[str, str], known: dict[str, Column]
) -> bool:
    answer = asked.get(f"column of {meaning}", "").strip()
    for place, title in enumerate(cells):
        if answer and title.strip() == answer:
            known[meaning] = Column(meaning, place, answer, told_by(title)[2])
            return True
    return False


def _chosen(
    meaning: str,
    titles: Sequence[str],
    cells: Sequence[str],
    asked: Mapping[str, str],
    known: dict[str, Column],
    doubts: dict[str, str],
) -> None:
    """Take the column that was answered where several mean the same, or ask which it is."""
    if _answered(meaning, cells, asked, known) or len(titles) == 1:
        return
    names = ", ".join(f'"{shown(each.strip(), 40)}"' for each in titles[:4])
    doubts[f"column of {meaning}"] = f"Which column is the {meaning}: {names}?"


def _units(known: dict[str, Column], asked: Mapping[str, str], doubts: dict[str, str]) -> None:
    for meaning, column in list(known.items()):
        quantity = QUANTITIES.get("elapsed" if meaning == "time" else meaning)
        if quantity is None or meaning in ("strokes", "time"):
            continue
        unit = asked.get(f"unit of {meaning}", "") or column.unit
        known[meaning] = Column(meaning, column.place, column.title, unit_for(meaning, unit))
        if not known[meaning].unit:
            choice = " or ".join(known_units(quantity)[:4])
            title = shown(column.title, 40)
            doubts[f"unit of {meaning}"] = f'In which unit is the column "{title}": {choice}?'
