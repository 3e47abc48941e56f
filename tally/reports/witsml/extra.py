"""What the standard has no element for, as its pairs of a name and a value."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from tally.reports.witsml.building import Content
from tally.reports.witsml.uom import Amount


@dataclass(frozen=True, slots=True)
class Extra:
    """One such pair; `at` is when it was seen, where that is known."""

    name: str
    value: Amount | str | int | None
    at: str = ""
    note: str = ""


def extra_21(extras: Iterable[Extra]) -> list[Content]:
    """Return the pairs of which something is known, for 2.1."""
    return [
        {"Name": one.name, "Value": one.value, "DTim": one.at, "Description": one.note}
        for one in known(extras)
    ]


def extra_1411(extras: Iterable[Extra]) -> list[Content]:
    """Return the same for 1.4.1.1, each with an identifier of its own."""
    return [
        {
            "@uid": f"e{place}",
            "name": one.name,
            "value": one.value,
            "dataType": "string" if isinstance(one.value, str) else "double",
            "dTim": one.at,
            "description": one.note,
        }
        for place, one in enumerate(known(extras), start=1)
    ]


def known(extras: Iterable[Extra]) -> list[Extra]:
    """Return the pairs that have a value."""
    nothing: tuple[Any, ...] = (None, "")
    return [one for one in extras if one.value not in nothing]
