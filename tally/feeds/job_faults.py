"""Where something stands in a job file or a form, and what is wrong with it there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from tally.units import Measure, shown

LIMITS_TABLE = "limits"


@dataclass(frozen=True, slots=True)
class Spot:
    """A place in a job file: a table, which of several, and a key."""

    table: str = ""
    """Nothing for the keys above the first table."""
    key: str = ""
    place: int = 0
    """Which of a list of tables, from 1; 0 where there is only one."""
    called: str = ""
    """What is said in place of a number: the name of a pipe, the key of a limit."""
    many: bool = False
    """Whether the table is one of a list, written with double brackets."""

    def at(self, key: str) -> Spot:
        """Return the spot of a key in the same table."""
        return replace(self, key=key)

    @property
    def title(self) -> str:
        """The table as a file names it: "[hole]", "[[pipe]] 1", "[limits] tank_total"."""
        if not self.table:
            return ""
        brackets = f"[[{self.table}]]" if self.many or self.place else f"[{self.table}]"
        which = shown(self.called) if self.called else str(self.place or "")
        return f"{brackets} {which}".rstrip()

    def __str__(self) -> str:
        if self.table == LIMITS_TABLE and self.called and self.key:
            return f"{self.title}, {self.key}"
        return f"{self.title} {shown(self.key)}".strip()


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that is wrong: where, and in a sentence what is there and what is wanted."""

    spot: Spot
    sentence: str
    typed: str = ""
    """The sentence beside a field of a form, where it differs from the one about a file."""
    whole: bool = False
    """Whether the sentence says by itself where it is."""

    @property
    def beside(self) -> str:
        """The sentence as it stands beside a field, behind its label."""
        return self.typed or self.sentence

    def __str__(self) -> str:
        return self.sentence if self.whole else f"{self.spot}: {self.sentence}"


def turned(spot: Spot, top: Measure, bottom: Measure) -> Iterator[Fault]:
    """Yield that a bottom is not below its top."""
    if bottom.value <= top.value:
        said = f"{bottom.text} is not below the top, {top.text}; look at both."
        yield Fault(spot.at("bottom"), said)


def named(names: Iterable[str]) -> str:
    """Return the names that a sentence may choose from, or that there are none."""
    return ", ".join(shown(each) for each in names) or "none"
