"""Short forms for many numbers: the running order, and the joints of a programme line."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence

from tally.errors import InputError
from tally.units import shown

MOST = 20_000
"""More than any string has; a longer range is a slip of the keyboard."""

_RANGE = re.compile(r"([A-Za-z]*)(\d{1,9})-([A-Za-z]*)(\d{1,9})", re.ASCII)
_NUMBER = re.compile(r"([A-Za-z]*)(\d{1,9})", re.ASCII)
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
    """Return joints in rising order in the short form that `read_joints` reads.

    >>> in_short((1, 2, 3, 7, 10, 14, 18))
    '1-3, 7, 10-18/4'
    """
    return ", ".join(_joints_in_short(*run) for run in _runs(joints))


def _joints_in_short(first: int, last: int, step: int) -> str:
    if first == last:
        return f"{first}"
    return f"{first}-{last}" if step == 1 else f"{first}-{last}/{step}"


def _runs(joints: Sequence[int]) -> Iterator[tuple[int, int, int]]:
    """Yield first, last and step of each run; two joints make one only if they are neighbours."""
    place = 0
    while place < len(joints):
        step = joints[place + 1] - joints[place] if place + 1 < len(joints) else 0
        last = place
        while step and last + 1 < len(joints) and joints[last + 1] - joints[last] == step:
            last += 1
        if step != 1 and last - place < 2:
            last = place
        yield joints[place], joints[last], step
        place = last + 1


def order_in_short(order: Sequence[str], known: Collection[str] = ()) -> str:
    """Return a running order in the short form that `read_order` reads, given the same `known`.

    >>> order_in_short(("shoe", "1", "2", "collar", "3", "4", "5", "9", "8", "7"))
    'shoe 1 2 collar 3-5 9-7'
    """
    parts: list[str] = []
    place = 0
    while place < len(order):
        length = _run_length(order, place)
        short = f"{order[place]}-{order[place + length - 1]}"
        if length < 3 or short in known:
            length, short = 1, order[place]
        parts.append(short)
        place += length
    return " ".join(parts)


def _run_length(order: Sequence[str], place: int) -> int:
    """Return how many numbers from here on a range stands for."""
    first = _NUMBER.fullmatch(order[place])
    second = _NUMBER.fullmatch(order[place + 1]) if place + 1 < len(order) else None
    if first is None or second is None or abs(int(second[2]) - int(first[2])) != 1:
        return 1
    step, here = int(second[2]) - int(first[2]), int(first[2])
    width = len(first[2]) if first[2].startswith("0") else 0
    length = 1
    while place + length < len(order):
        here += step
        if here < 0 or order[place + length] != f"{first[1]}{here:0{width}}":
            break
        length += 1
    return length
