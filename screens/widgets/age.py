"""How old something is, in words."""

from __future__ import annotations


def age(seconds: float) -> str:
    """Return how old a reading or an entry is, in few columns; a clock set back makes it 0 s.

    >>> age(9), age(300), age(7300), age(300_000), age(-5)
    ('9 s', '5 min', '2 h', '3 days', '0 s')
    """
    whole = max(0, int(seconds))
    for least, unit, name in ((172_800, 86_400, "days"), (7200, 3600, "h"), (120, 60, "min")):
        if whole >= least:
            return f"{whole // unit} {name}"
    return f"{whole} s"
