"""Lists with rows that are doubtful, and with text that does harm."""

from __future__ import annotations

from collections.abc import Sequence

from tests.tally.feeds.lists.invented import (
    a_list,
    feet,
    lines,
    numbers,
    plain,
)

# Doubts by row


@a_list("missing-and-unreadable.csv")
def _() -> str:
    rows: list[Sequence[object]] = [(n, feet(n), "") for n in numbers()]
    rows[2] = ("", feet(3), "number worn off")
    rows[4] = (5, "", "not measured")
    rows[6] = (7, "bent", "")
    rows[7] = (8, "n/a", "")
    rows[8] = (9, "0", "")
    rows[9] = (10, "-40.80", "")
    rows[10] = (11, "4117000", "")
    return lines(("Joint", "Length", "Remarks"), *rows)


@a_list("numbers-nobody-can-type.csv")
def _() -> str:
    names: list[object] = ["#1", "2.", "No 3", "A-4", "5/6", "0007", "1234567890123"]
    return lines(("Joint", "Length"), *((name, feet(n)) for n, name in enumerate(names, start=1)))


@a_list("numbers-twice.csv")
def _() -> str:
    names = ["1", "2", "3", "2", "5", "a6", "A6", "08", "8", "10", "11", "3"]
    return lines(("Joint", "Length"), *((name, feet(n)) for n, name in enumerate(names, start=1)))


@a_list("numbers-in-the-book.csv")
def _() -> str:
    return lines(("Joint", "Length"), *((n + 195, feet(n)) for n in numbers()))


@a_list("outside-the-range.csv")
def _() -> str:
    rows = (
        (n, {4: "33.99", 5: "34.00", 8: "48.00", 9: "48.01"}.get(n, feet(n))) for n in numbers()
    )
    return lines(("Joint", "Length"), *rows)


@a_list("same-as-before.csv")
def _() -> str:
    rows = ((n, feet(3) if n in (4, 5) else feet(n)) for n in numbers())
    return lines(("Joint", "Length"), *rows)


@a_list("digits-swapped.csv")
def _() -> str:
    rows = ((n, {3: "14.35", 9: "04.71"}.get(n, feet(n))) for n in numbers())
    return lines(("Joint", "Length"), *rows)


@a_list("points-slipped.csv")
def _() -> str:
    slips = {2: "4034", 5: "4.145", 8: "400.6", 11: ".4117"}
    return lines(("Joint", "Length"), *((n, slips.get(n, feet(n))) for n in numbers()))


# Text that does harm


@a_list("formulas.csv")
def _() -> str:
    rows: list[Sequence[object]] = [(n, feet(n), "H1", "") for n in numbers()]
    rows[0] = (1, feet(1), "'=1+2", "'@here")
    rows[1] = (2, feet(2), "=1+2", "-pin end")
    rows[2] = (3, feet(3), "''quoted''", "x;'=1+2")
    return lines(("Joint", "Length", "Heat", "Remarks"), *rows, mark="\t")


@a_list("escapes.csv")
def _() -> str:
    rows: list[Sequence[object]] = [(n, feet(n), "", "") for n in numbers()]
    rows[0] = (1, feet(1), "", "\x1b[31mred\x1b[0m")
    rows[1] = (2, feet(2), "\u202e77A", "")
    rows[2] = ("3\u200b", feet(3), "", "")
    rows[3] = (4, f"\x1b]0;x\x07{feet(4)}", "", "")
    rows[4] = (5, feet(5), "", "w" * 300)
    rows[5] = (6, feet(6), "", "[/] [bold]x")
    return lines(("Joint", "Length", "Heat", "Remarks"), *rows)


@a_list("unclosed-quote.csv")
def _() -> str:
    return plain().replace("\r\n5,", '\r\n5,"')
