"""Short forms for many numbers: the running order, and the joints of a programme line."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence

from tally.errors import InputError
from tally.units import shown

MOST = 20_000
"""More than any string has; a longer range is a slip of the keyboard."""

_RANGE = re.compile(r"([A-Za-z]*)(\d{1,9})-([A-Za-z]*)(\d{1,9})", re.ASCII)
_JOINTS = re.compile(r"(\d{1,9})(?: ?- ?(\d{1,9})(?: ?/ ?(\d{1,9}))?)?", re.ASCII)


def read_order(text: str, known: Collection[str] = ()) -> tuple[str, ...]:
    """Return the numbers of a running order, from the shoe up.

    Parameters
    ----------
    text : str
        Numbers with spaces or commas between; "3-205" stands for every number from 3 to 205,
        "205-3" for the same the other way round, "A1-A20" for numbers with a letter before them
    known : collection of str, optional
        Numbers that are in use; one of them that looks like a range is taken as it stands

    Raises
    ------
    InputError
        If a range cannot be read in one way only, or the order is longer than any string.

    Examples
    --------
    >>> read_order("shoe 1 2 collar 3-6")
    ('shoe', '1', '2', 'collar', '3', '4', '5', '6')
    """
    order: list[str] = []
    for part in text.replace(",", " ").split():
        order += [part] if part in known else _numbers(part)
        if len(order) > MOST:
            raise InputError(f'"{shown(part)}" makes the order longer than {MOST:,} items.')
    if not order:
        raise InputError('The running order is empty: type it like "shoe 1 2 collar 3-205".')
    return tuple(order)


def _numbers(part: str) -> list[str]:
    match = _RANGE.fullmatch(part)
    if match is None:
        return [part]
    before, first, after, last = match.groups()
    if before != after:
        raise InputError(
            f'"{shown(part)}" goes from "{shown(before)}" to "{shown(after)}": '
            'use the same letters on both sides, like "A1-A20".'
        )
    step = 1 if int(first) <= int(last) else -1
    if abs(int(first) - int(last)) >= MOST:
        raise InputError(f'"{shown(part)}" stands for more than {MOST:,} numbers: look at it.')
    width = len(first) if first.startswith("0") else 0
    return [f"{before}{each:0{width}}" for each in range(int(first), int(last) + step, step)]


def read_joints(text: str) -> tuple[int, ...]:
    """Return the joints of a programme line, counted from the shoe, in rising order.

    Parameters
    ----------
    text : str
        "1-10, 14, 18-60/4": joints 1 to 10, joint 14, and every 4th from 18 to 60

    Raises
    ------
    InputError
        If a part cannot be read, runs backwards, starts below 1 or names a joint again.

    Examples
    --------
    >>> read_joints("1-3, 7, 10-18/4")
    (1, 2, 3, 7, 10, 14, 18)
    """
    found: set[int] = set()
    for part in (each.strip(" ") for each in text.split(",")):
        new = _joints(part)
        again = found.intersection(new)
        if again:
            raise InputError(f'"{shown(part)}" names joint {min(again)} a second time.')
        found.update(new)
    return tuple(sorted(found))


def _joints(part: str) -> range:
    match = _JOINTS.fullmatch(part)
    if match is None:
        raise InputError(
            f'"{shown(part)}" names no joints: type them like "1-10, 14, 18-60/4", '
            "counted from the shoe, the last meaning every 4th."
        )
    first, last, step = int(match[1]), int(match[2] or match[1]), int(match[3] or 1)
    if first < 1:
        raise InputError(f'"{shown(part)}" starts below 1: joint 1 is the one above the shoe.')
    if last < first:
        raise InputError(f'"{shown(part)}" runs backwards: type the lower joint first.')
    if step < 1:
        raise InputError(f'"{shown(part)}" has a step of nothing: type 4 for every 4th joint.')
    if last > MOST:
        raise InputError(f'"{shown(part)}" goes beyond {MOST:,} joints: look at it.')
    return range(first, last + 1, step)


def in_short(joints: Sequence[int]) -> str:
    """Return joints in the short form that `read_joints` reads.

    >>> in_short((1, 2, 3, 7, 10))
    '1-3, 7, 10'
    """
    return ", ".join(
        f"{first}-{last}" if last > first else f"{first}" for first, last in _runs(joints)
    )


def _runs(joints: Sequence[int]) -> Iterator[tuple[int, int]]:
    first = None
    for place, joint in enumerate(joints):
        first = joint if first is None else first
        if place + 1 == len(joints) or joints[place + 1] != joint + 1:
            yield first, joint
            first = None
