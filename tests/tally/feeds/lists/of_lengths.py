"""Lists that are nasty by their numbers and units, and by their sums."""

from __future__ import annotations

from collections.abc import Sequence

from tests.tally.feeds.lists.invented import (
    a_list,
    feet,
    hundredths,
    lines,
    metres,
    numbers,
    plain,
    total,
)

# Numbers and units


@a_list("feet-and-inches.csv")
def _() -> str:
    typed = ["41' 4\"", "41'4 1/2\"", "40 ft 11 in", "39'-10\"", "41.35 ft", "41\u2032 2\u2033"]
    rows = ((n, typed[n - 1]) for n in range(1, 7))
    return lines(("Joint", "Length"), *rows, mark=";")


@a_list("feet-inches-columns.csv")
def _() -> str:
    rows = ((n, 40 + n % 2, f"{n} 1/2" if n < 12 else "") for n in numbers())
    return lines(("Joint", "ft", "in"), *rows)


@a_list("units-by-cell.csv")
def _() -> str:
    rows = ((n, f"{metres(n, ',')} m" if n % 3 == 0 else f"{feet(n, ',')} ft") for n in numbers())
    return lines(("Joint", "Length"), *rows, mark=";")


@a_list("metres-for-a-tally-in-feet.csv")
def _() -> str:
    return lines(("Joint", "Length (m)"), *((n, metres(n)) for n in numbers()))


@a_list("millimetres.csv")
def _() -> str:
    rows = ((n, round(float(metres(n)) * 1000)) for n in numbers())
    return lines(("Joint", "Length mm"), *rows)


@a_list("thousands-in-millimetres.csv")
def _() -> str:
    rows = ((n, f"12.{round(float(metres(n)) * 1000) - 12000:03}") for n in numbers())
    return lines(("Nr.", "L\u00e4nge (mm)"), *rows, mark=";")


@a_list("three-decimals-comma.csv")
def _() -> str:
    rows = ((n, f"{metres(n, ',')}{n % 10}") for n in numbers())
    return lines(("Nr.", "L\u00e4nge"), *rows, mark=";")


@a_list("heading-says-metres-numbers-are-feet.csv")
def _() -> str:
    return plain(("Joint", "Length (m)"))


@a_list("metres-and-nothing-says-so.csv")
def _() -> str:
    return lines(("Joint", "Length"), *((n, metres(n)) for n in numbers()))


@a_list("one-row-in-metres.csv")
def _() -> str:
    rows = ((n, metres(n) if n == 7 else feet(n)) for n in numbers())
    return lines(("Joint", "Length (ft)"), *rows)


@a_list("one-row-in-millimetres.csv")
def _() -> str:
    rows = ((n, "12340" if n == 7 else metres(n)) for n in numbers())
    return lines(("Joint", "Length (m)"), *rows)


@a_list("both-marks.csv")
def _() -> str:
    rows = [(n, feet(n, ",."[n % 2])) for n in numbers(11)]
    return lines(("Joint", "Length"), *rows, (12, "41,354"), mark=";")


@a_list("commas-part-numbers.csv")
def _() -> str:
    return plain(point=",")


@a_list("one-row-parted.csv")
def _() -> str:
    return plain().replace(",41.17", ",41,17")


# Sums


@a_list("total.csv")
def _() -> str:
    return plain(("Joint", "Length")) + f"Total,{total()}\r\n"


@a_list("total-off.csv")
def _() -> str:
    return plain(("Joint", "Length")) + "Total 11 joints,449.06\r\n"


@a_list("total-without-a-label.csv")
def _() -> str:
    return plain(("Joint", "Length")) + f",{total()}\r\n"


@a_list("total-german.csv")
def _() -> str:
    rows = [
        (n, f"{round(float(metres(n)) * 1000) / 1000:.3f}".replace(".", ",")) for n in numbers()
    ]
    rows += [("Summe", f"{round(float(total(metres)) * 1000) / 1000:.3f}".replace(".", ","))]
    return lines(("Nr.", "L\u00e4nge (m)"), *rows, mark=";")


@a_list("subtotals.csv")
def _() -> str:
    rows: list[Sequence[object]] = []
    for start in (1, 5, 9):
        if start > 1:
            rows.append(("Brought forward", total(last=start - 1), ""))
        rows += [(n, feet(n), "") for n in range(start, start + 4)]
        rows.append(
            ("Subtotal", f"{sum(hundredths(n) for n in range(start, start + 4)) / 100}", "")
        )
    rows.append(("Total", total(), "12"))
    return lines(("Joint", "Length", "Pieces"), *rows)


@a_list("total-running-rows-overall.csv")
def _() -> str:
    rows = ((n, f"{(hundredths(n) + 32) / 100:.2f}") for n in numbers())
    return lines(("Joint", "Length overall (ft)"), *rows, ("Total", total()))


@a_list("mean-of-another-kind.csv")
def _() -> str:
    rows = ((n, f"{(hundredths(n) + 32) / 100:.2f}") for n in range(501, 621))
    return lines(("Joint", "Length"), *rows)


@a_list("mean-against-the-sum.csv")
def _() -> str:
    rows = ((n, "46.50" if n > 38 else f"40.0{n % 7}") for n in range(1, 47))
    return lines(("Joint", "Length"), *rows)


@a_list("notes-everywhere.csv")
def _() -> str:
    rows: list[Sequence[object]] = [
        ("Rig 7", "pipe tally", ""),
        ("9-5/8 in 47 lb/ft", "", ""),
        ("", "", ""),
        ("Joint", "Length", "Remarks"),
    ]
    for n in numbers():
        rows.append((n, feet(n), ""))
        if n == 6:
            rows += [
                ("second layer", "", ""),
                ("", "", "tape changed here"),
                ("2026-03-14", "", ""),
            ]
    rows += [("", "", ""), ("measured by the day crew", "", ""), ("END", "", "")]
    return lines(*rows)


@a_list("blank-lines.csv")
def _() -> str:
    return (
        "\r\n\r\n;;;\r\n" + plain(mark=";").replace("\r\n5;", "\r\n\r\n ; ;\r\n5;") + ";;;\r\n" * 40
    )
