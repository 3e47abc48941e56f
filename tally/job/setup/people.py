"""Who is on the job, what they bring, and the limits that they set."""

from __future__ import annotations

from dataclasses import dataclass

ROLES = (
    "casing crew lead",
    "cementer",
    "company representative",
    "driller",
    "mud engineer",
    "tally keeper",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """Somebody on the job."""

    name: str
    role: str


def same_name(one: str, other: str) -> bool:
    """Whether two names can only be one person's: capitals and spaces tell nobody apart.

    >>> same_name("Ama Osei", "ama  osei"), same_name("Ama Osei", "Ana Osei")
    (True, False)
    """
    return one.casefold().split() == other.casefold().split()


@dataclass(frozen=True, slots=True, kw_only=True)
class Equipment:
    """One thing of the equipment list, and who brings it."""

    name: str
    supplier: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """A limit with the person who set it and where it comes from; none is a constant in code."""

    text: str
    owner: str
    source: str = ""
