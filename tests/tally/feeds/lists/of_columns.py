"""Lists that are nasty by their columns."""

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
)


@a_list("any-order.csv")
def _() -> str:
    head = ("Date", "Torque (ft-lb)", "Serial No.", "Meas. Length ft", "Heat", "Drift", "Jt #")
    head = (*head, "Cum. Length", "Remarks")
    rows = []
    so_far = 0
    for n in numbers():
        so_far += hundredths(n)
        cells = ("2026-03-13", 8400 + n, f"SN{9000 + n}", feet(n), f"H{n % 4}", "ok", n)
        rows.append((*cells, f"{so_far / 100:.2f}", ""))
    return lines(head, *rows)


@a_list("sequence-and-painted.csv")
def _() -> str:
    head = ("No.", "Joint No.", "Length")
    return lines(head, *((n, f"A{100 + 3 * n}", feet(n)) for n in numbers()))


@a_list("units-row.csv")
def _() -> str:
    rows = ((n, metres(n), "47") for n in numbers())
    return lines(("Joint", "Length", "Weight"), ("no.", "(m)", "(lb/ft)"), *rows)


@a_list("side-by-side.csv")
def _() -> str:
    head = ("No.", "Length", "", "No.", "Length", "", "No.", "Length")
    rows = []
    for n in range(1, 5):
        cells = [cell for k in (n, n + 4, n + 8) for cell in (k, feet(k), "")]
        rows.append(cells[:-1])
    sums = [f"{sum(hundredths(k) for k in range(a, a + 4)) / 100:.2f}" for a in (1, 5, 9)]
    last = [cell for each in sums for cell in ("Total", each, "")]
    return lines(head, *rows, last[:-1])


@a_list("heading-repeated.csv")
def _() -> str:
    head = ("Joint", "Length (ft)", "Remarks")
    rows: list[Sequence[object]] = [head]
    for n in numbers():
        rows.append((n, feet(n), ""))
        if n % 5 == 0:
            rows += [("", "", ""), ("Page", n // 5, ""), head]
    return lines(*rows)


@a_list("heading-turned-round.csv")
def _() -> str:
    first = [("Joint", "Length (ft)"), *((n, feet(n)) for n in range(1, 7))]
    then = [("Length (m)", "Joint"), *((metres(n), n) for n in range(7, 13))]
    return lines(*first, *then)


@a_list("no-headings.csv")
def _() -> str:
    return lines(*((feet(n), n) for n in numbers()))


@a_list("no-headings-mm.csv")
def _() -> str:
    rows = ((f"B{n}", round(float(metres(n)) * 1000)) for n in numbers())
    return lines(*rows, mark=";")


@a_list("no-headings-three-columns.csv")
def _() -> str:
    return lines(*((n, feet(n), f"{n}.5") for n in numbers()))


@a_list("no-numbers.csv")
def _() -> str:
    return lines(("Serial", "Length"), *((f"SN{n}", feet(n)) for n in numbers()))


@a_list("overall-and-running.csv")
def _() -> str:
    head = ("Joint", "Overall (ft)", "Make-up loss", "Running length (ft)")
    rows = ((n, f"{(hundredths(n) + 32) / 100:.2f}", "0.32", feet(n)) for n in numbers())
    return lines(head, *rows)


@a_list("serial-heat-kind.csv")
def _() -> str:
    head = ("Rohr", "Art", "L\u00e4nge", "Seriennummer", "Schmelze", "Bemerkung")
    kinds = {10: "Passrohr", 11: "\u00dcbergang", 12: "Markierungsrohr"}
    lengths = {10: "10,05", 11: "3,20", 12: "20,11"}
    rows = (
        (n, kinds.get(n, "Rohr"), lengths.get(n, feet(n, ",")), f"S-{n:03}", f"77A/{n % 2}", "")
        for n in numbers()
    )
    return lines(head, *rows, mark=";")


@a_list("pipes-in-words.csv")
def _() -> str:
    named = ['9-5/8" 47# L-80', "9 5/8 47 L80", "9.625 47.0", "9-5/8 in 53.5 lb/ft", "244.5 79.6"]
    rows = ((n, feet(n), named[n % 5].replace('"', "")) for n in numbers())
    return lines(("Joint", "Length", "Pipe type"), *rows)


@a_list("pipes-in-parts.csv")
def _() -> str:
    rows = [(n, feet(n), "9-5/8", "47" if n < 7 else "53.50", "L80") for n in numbers(10)]
    rows += [(11, feet(11), "7", "29", "L80"), (12, feet(12), "9-5/8", "", "L-80")]
    return lines(("Joint", "Length", "OD (in)", "Weight (lb/ft)", "Grade"), *rows)


@a_list("no-pipe-named.csv")
def _() -> str:
    return plain()
