"""Places in a running list, as they are typed: "M1 at 5000 ft, X1 above 40"."""

from __future__ import annotations

import re

from tally.errors import InputError
from tally.feeds.item_numbers import item_number
from tally.job.order_rules import Place
from tally.units import read, shown

_PARTS = re.compile(r";|,(?= )")
_PLACE = re.compile(r"(\S+) +(at|above) +(.+)")


def read_places(text: str, unit: str) -> tuple[Place, ...]:
    """Return the places of items, each above a joint counted from the shoe or at a depth.

    Parameters
    ----------
    text : str
        Places with a comma and a space, or a semicolon, between them
    unit : str
        The unit of a depth that names none

    Raises
    ------
    InputError
        If a place cannot be read.

    Examples
    --------
    >>> [str(each) for each in read_places("M1 at 5000, X1 above 40", "ft")]
    ['M1 at 5000 ft', 'X1 above 40']
    """
    parts = (part.strip() for part in _PARTS.split(text))
    return tuple(_place(part, unit) for part in parts if part)


def _place(text: str, unit: str) -> Place:
    match = _PLACE.fullmatch(text)
    if match is None:
        raise InputError(
            f'"{shown(text)}" is no place: type it like "M1 at 5000 ft" or "X1 above 40", '
            "the joint counted from the shoe."
        )
    number, how, where = match.groups()
    if how == "at":
        return Place(number=item_number(number), depth=read(where, "length", unit))
    if not (where.isascii() and where.isdigit() and len(where) < 7 and int(where) > 0):
        raise InputError(f'"{shown(where)}" is no joint: count it from the shoe, like "above 40".')
    return Place(number=item_number(number), above=int(where))
