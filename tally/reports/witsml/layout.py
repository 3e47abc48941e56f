"""The elements of a version of WITSML as our table has them: order, how often, what they hold."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

NEWER, OLDER = "2.1", "1.4.1.1"
ONCE, MAY_BE, ANY, SOME = "1", "?", "*", "+"
"""How often an element may stand."""
CLOSED, OPEN = "one of ", "open "
"""How what an element holds begins where it is a word of a list; an open one may be added to."""
CUSTOM = "custom:"
"""How a word begins that stands for one which a list of 2.1 lacks."""


@dataclass(frozen=True, slots=True)
class Part:
    """One element of a type: its tag, how often it may stand, and what it holds."""

    tag: str
    times: str
    holds: str

    @property
    def name(self) -> str:
        """The tag without its prefix."""
        return self.tag.rpartition(":")[2]

    @property
    def needed(self) -> bool:
        """Whether it must be there."""
        return self.times in (ONCE, SOME)

    @property
    def words(self) -> tuple[str, ...]:
        """The words of its list; nothing where it holds something else."""
        for kind in (CLOSED, OPEN):
            if self.holds.startswith(kind):
                return tuple(self.holds.removeprefix(kind).split(" | "))
        return ()

    @property
    def repeats(self) -> bool:
        """Whether it may stand more than once."""
        return self.times in (ANY, SOME)


@dataclass(frozen=True, slots=True)
class Shape:
    """A type: its attributes, all of which must be there, and its elements in order."""

    attributes: tuple[str, ...]
    parts: tuple[Part, ...]

    def part(self, name: str) -> Part:
        """Return the element of a name."""
        return next(part for part in self.parts if part.name == name)


@dataclass(frozen=True, slots=True)
class Layout:
    """A version of the standard, as far as we write it."""

    version: str
    namespace: str
    prefixes: Mapping[str, str]
    shapes: Mapping[str, Shape]

    def words(self, shape: str, name: str) -> tuple[str, ...]:
        """Return the words that an element of a type may be."""
        return self.shapes[shape].part(name).words


@lru_cache(maxsize=2)
def layout(version: str) -> Layout:
    """Return the layout of "2.1" or "1.4.1.1"."""
    place = Path(__file__).with_name(f"v{version.replace('.', '')}.toml")
    table = tomllib.loads(place.read_text("ascii"))
    shapes = {
        name: Shape(tuple(said.get("attributes", ())), tuple(map(_part, said["elements"])))
        for name, said in table["types"].items()
    }
    return Layout(table["version"], table["namespace"], table["prefixes"], shapes)


def _part(line: str) -> Part:
    tag, times, holds = line.split(" ", 2)
    return Part(tag, times, holds)
