"""The CSV files: every item once, sums that add up by themselves, no formula in any field."""

import csv
import io
import re
from decimal import Decimal

import pytest

from tally.reports.guard import guarded
from tally.reports.tally_csv import not_run_csv, string_csv
from tests.tally.reports.jobs import HOSTILE, JOINTS, tally
from tests.tally.reports.test_guard import begins_a_formula

NUMBER = re.compile(r"-?\d+(\.\d+)?")
NUMBERS = ("order", "length", "cumulative", "top", "bottom", "outer", "weight")


def rows(text: str) -> list[dict[str, str]]:
    """Return the lines of a CSV file by their header."""
    return list(csv.DictReader(io.StringIO(text, newline="")))


def column(lines: list[dict[str, str]], name: str) -> list[Decimal]:
    """Return a column of numbers."""
    return [Decimal(line[name]) for line in lines]


@pytest.mark.parametrize("unit", ["ft", "m", "mm"])
def test_the_lengths_add_up(unit: str) -> None:
    made = tally("", unit)
    lines = rows(string_csv(made))
    length, to_here = column(lines, f"length_{unit}"), column(lines, f"cumulative_length_{unit}")
    top, bottom = column(lines, f"top_depth_{unit}"), column(lines, f"bottom_depth_{unit}")
    assert [sum(length[: place + 1]) for place in range(len(length))] == to_here
    assert [low - high for low, high in zip(bottom, top, strict=True)] == length
    assert bottom[1:] == top[:-1]
    stick_up = {"ft": Decimal("3.22"), "m": Decimal("0.98"), "mm": Decimal(981)}[unit]
    assert bottom[0] == to_here[-1] - stick_up
    assert top[-1] == -stick_up
    assert [int(line["order"]) for line in lines] == list(range(1, len(lines) + 1))


def test_every_number_is_in_one_file_or_the_other() -> None:
    made = tally()
    run, others = rows(string_csv(made)), rows(not_run_csv(made))
    numbers = [line["number"] for line in (*run, *others)]
    assert sorted(numbers) == sorted(["shoe", "collar", *map(str, range(1, JOINTS + 1))])
    assert {line["number"]: (line["state"], line["reason"]) for line in others} == {
        "9": ("rejected", "thread"),
        "31": ("laid down", "bent"),
        "33": ("on rack", ""),
        "34": ("sent away", "not ours"),
    }


def test_the_balance_from_the_files_alone() -> None:
    made = tally()
    joints = [line for line in rows(string_csv(made)) if line["kind"] == "joint"]
    away = rows(not_run_csv(made))
    here = [line for line in away if line["state"] != "sent away"]
    total = sum(column(joints + here, "length_ft"))
    assert (len(joints) + len(here), total) == (
        made.balance.on_location.count,
        Decimal(made.balance.on_location.length) / 100,
    )


def test_the_header_names_the_units() -> None:
    field, metric = (string_csv(tally("", unit)).splitlines()[0] for unit in ("ft", "mm"))
    for name in ("outer_diameter_in", "weight_lb_per_ft", "length_ft", "top_depth_ft"):
        assert f'"{name}"' in field
    for name in ("outer_diameter_mm", "weight_kg_per_m", "length_mm", "bottom_depth_mm"):
        assert f'"{name}"' in metric


def test_what_was_said_of_an_item() -> None:
    lines = {line["number"]: line for line in rows(string_csv(tally()))}
    assert lines["shoe"]["remarks"] == "accepted: asked"
    assert lines["1"]["remarks"] == "corrected by entry 44: slip"
    assert lines["5"]["remarks"].endswith(
        "; what is installed was noted later: entry 41, seen later"
    )
    assert (
        lines["32"]["remarks"]
        == "pulled out before (late); measured 43.47 when run; accepted: asked"
    )
    assert lines["2"]["fittings"] == "bow centralizer mid-joint"
    assert lines["2"]["run_at"] == "2026-03-01T23:10:00+01:00"
    assert (lines["2"]["outer_diameter_in"], lines["2"]["weight_lb_per_ft"]) == ("9.625", "47.00")


@pytest.mark.parametrize("text", HOSTILE)
@pytest.mark.parametrize("of", [string_csv, not_run_csv])
def test_no_typed_text_becomes_a_formula_or_an_escape(of, text: str) -> None:
    made = of(tally(text))
    raw = made.encode("utf-8").replace(b"\r\n", b"")
    assert not [byte for byte in raw if byte < 0x20 or byte == 0x7F]
    assert not re.search("[\x80-\x9f\u202a-\u202e\u2066-\u2069\u200b]", made)
    for mark in ",;":
        for line in csv.reader(io.StringIO(made, newline=""), delimiter=mark):
            for cell in line:
                assert not begins_a_formula(cell) or NUMBER.fullmatch(cell), cell


@pytest.mark.parametrize("text", HOSTILE)
def test_typed_text_stays_in_its_field(text: str) -> None:
    made = tally(text)
    lines = rows(string_csv(made))
    assert len(lines) == len(made.rows)
    for line, row in zip(lines, made.rows, strict=True):
        assert None not in line
        assert None not in line.values()
        assert line["number"] == guarded(row.number)
        assert line["by"] == guarded(f"{text}Ama")
        assert line["grade"] == guarded(f"{text}grade")
        for name, cell in line.items():
            assert not name.startswith(NUMBERS) or NUMBER.fullmatch(cell), (name, cell)
