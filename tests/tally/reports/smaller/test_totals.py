"""The smaller reports add up to what the book has, in both unit sets, as other programs read."""

import csv
import io
from datetime import datetime
from itertools import pairwise

import pytest

from demo_db.play import entries as played
from tally.job.entries.mixing import MixRead
from tally.job.entries.pumping import Pumped
from tally.job.entries.running import ItemRun, PulledOut
from tally.job.entries.watching import TankRead
from tally.job.figures import figure
from tally.reports.cement_fields import after_fields
from tally.reports.final_tally import FinalTally, final_tally
from tally.reports.regulator_fields import regulator_fields
from tally.reports.sheet_csv import sheet_csv
from tally.reports.smaller.times import phases
from tally.units import read, to_unit
from tests.tally.job.invented import running
from tests.tally.reports.jobs import HEAD
from tests.tally.reports.pdf.jobs import demonstration, long_string
from tests.tally.reports.smaller.jobs import Job, job, sheets

UNITS = ("field", "metric")
VOLUME = {"field": "bbl", "metric": "m3"}
Rows = list[dict[str, str]]


def demo(units: str) -> Job:
    """Return the demonstration, its figures in one of the unit sets."""
    return demonstration("end", units), played("end")


def table(of: Job, key: str, file: str = "") -> Rows:
    """Return a table of a smaller report as another program reads it."""
    return list(csv.DictReader(io.StringIO(sheet_csv(sheets(of)[key])[file], newline="")))


def number(of: FinalTally, figure_key: str, unit: str) -> float:
    """Return a live figure in a unit."""
    found = figure(of.job, figure_key)
    assert found.value is not None
    return to_unit(found.value, unit)


@pytest.mark.parametrize("units", UNITS)
def test_the_trip_sheet_ends_with_what_the_tank_gained(units: str) -> None:
    of, unit = demo(units), VOLUME[units]
    rows = table(of, "trip-sheet")
    read = [row for row in rows if row[f"tank_{unit}"]]
    assert len(read) == sum(isinstance(entry, TankRead) for entry in of[1])
    assert [row["no."] for row in rows if row["no."]] == [made.number for made in of[0].job.string]
    difference = number(of[0], "tank_total_difference", unit)
    assert float(read[-1][f"cumulative_{unit}"]) == pytest.approx(difference, abs=6e-4)
    since = max(n for n, row in enumerate(read) if "counts from" in row["remarks"])
    for name, wanted in (("expected", "tank_total_expected"), ("seen", "tank_total_seen")):
        parts = [float(row[f"{name}_{unit}"] or 0) for row in read[since + 1 :]]
        assert sum(parts) == pytest.approx(number(of[0], wanted, unit), abs=6e-4 * len(parts))


@pytest.mark.parametrize("units", UNITS)
def test_each_reading_stands_beside_the_level_before_it(units: str) -> None:
    of, unit = demo(units), VOLUME[units]
    read = [row for row in table(of, "trip-sheet") if row[f"tank_{unit}"]]
    for before, after in pairwise(read):
        if "new mark" in after["remarks"]:
            assert after[f"seen_{unit}"] == ""
            continue
        seen = float(after[f"tank_{unit}"]) - float(before[f"tank_{unit}"])
        assert float(after[f"seen_{unit}"]) == pytest.approx(seen, abs=0.011)
        apart = float(after[f"seen_{unit}"]) - float(after[f"expected_{unit}"])
        assert float(after[f"difference_{unit}"]) == pytest.approx(apart, abs=2e-3)


@pytest.mark.parametrize(
    "of",
    [demo("field"), job("", "ft"), job("", "m"), (long_string(400, "m"), ())],
    ids=["demonstration", "feet", "metres", "long"],
)
def test_the_inventory_is_the_balance_by_count_and_by_length(of: Job) -> None:
    tally = of[0]
    unit, step = tally.setup.step.unit, tally.setup.step
    pieces = [row for row in table(of, "inventory", "pieces") if row["item"] == "joint"]
    sums = tally.balance
    shares = {
        "run": sums.run,
        "on rack": sums.left,
        "rejected": sums.rejected,
        "laid down": sums.laid_down,
        "sent away": tally.sent_away,
    }
    for state, share in shares.items():
        lengths = [row[f"length_{unit}"] for row in pieces if row["state"] == state]
        assert len(lengths) == share.count, state
        total = sum(step.read(each) for each in lengths)
        assert total == share.length, state
    (by_pipe,) = table(of, "inventory", "by-pipe")
    counted = [by_pipe[each] for each in ("run", "left_on_rack", "rejected", "laid_down")]
    assert [int(each) for each in counted] == [
        share.count for share in (sums.run, sums.left, sums.rejected, sums.laid_down)
    ]
    assert int(by_pipe["sent_back"]) == tally.sent_away.count


@pytest.mark.parametrize("units", UNITS)
def test_pumping_and_mixing_are_what_was_entered(units: str) -> None:
    of, unit = demo(units), VOLUME[units]
    pumped = [row for row in table(of, "pumping") if row["strokes"]]
    said = [entry for entry in of[1] if isinstance(entry, Pumped)]
    assert [int(row["strokes"]) for row in pumped] == [entry.strokes for entry in said]
    last = next(entry.tank for entry in reversed(said) if entry.tank)
    assert float(pumped[-1][f"tank_{unit}"]) == pytest.approx(to_unit(last.value, unit), abs=0.05)
    mixed = table(of, "mixing-log")
    assert len(mixed) == sum(isinstance(entry, MixRead) for entry in of[1])
    ends = {row["fluid"]: row for row in mixed if row["sacks"]}
    assert sum(int(row["sacks"]) for row in ends.values()) == number(of[0], "mixed_sacks", "")
    slurry = sum(float(row[f"pumped_{unit}"]) for row in ends.values())
    assert slurry == pytest.approx(number(of[0], "mixed_volume", unit), abs=0.02)


def test_the_running_list_is_the_string_as_run() -> None:
    of = demo("field")
    rows = [row for row in table(of, "running-list") if row["run"]]
    run = [entry.number for entry in of[1] if isinstance(entry, ItemRun)]
    assert {row["no."] for row in rows} <= set(run)
    assert len(rows) == len(of[0].job.string)
    assert rows[-1]["to_here_ft"] == "8243.42"  # 8,240.00 ft of shoe and 3.42 ft of stick-up
    assert rows[0]["bottom_ft"] == "8240.00"


def test_the_parts_of_the_time_touch_and_add_up() -> None:
    of = demo("field")
    rows = table(of, "times", "parts")
    form = "%Y-%m-%d %H:%M"
    ends = [(datetime.strptime(r["from"], form), datetime.strptime(r["to"], form)) for r in rows]
    assert all(one[1] == two[0] for one, two in pairwise(ends))
    whole = (ends[-1][1] - ends[0][0]).total_seconds() / 60
    assert sum(int(row["took_min"]) for row in rows) == whole
    assert [row["part_of_the_work"].split(",")[0] for row in rows][1] == "running the string"
    for row in rows:
        assert int(row["took_min"]) == int(row["worked_min"]) + int(row["lost_min"])


def test_time_lost_counts_in_the_part_in_which_it_lies_and_once() -> None:
    tally, _ = job()
    found = phases(tally.job, tally.began)
    assert [(one.minutes, one.stood) for one in found] == [(120, 30)]
    (lost,) = table(job(), "times", "lost")
    assert (lost["cause"], lost["began"], lost["lost_min"]) == ("pump", "2026-03-02 00:40", "30")


def test_what_is_kept_beside_the_work_stands_as_it_was_entered() -> None:
    (notice,) = table(job(), "notices")
    assert list(notice.values()) == [
        *("district office", "cementing", "telephone", "1 March at noon", "Nils", "no. 7")
    ]
    (gauge,) = table(job(), "calibrations")
    assert (gauge["serial_no."], gauge["holds_until"], gauge["state"]) == (
        "G7", "2026-02-28", "RUN OUT",
    )  # fmt: skip
    (test,) = table(job(), "pressure-tests")
    # 1,500 psi less 1,455 psi is 45 psi, 3 % of 1,500 psi
    assert (test["put_on_psi"], test["for_min"], test["at_end_psi"], test["fall_%"]) == (
        "1500", "30", "1455", "3.0",
    )  # fmt: skip
    assert test["result"] == "DID NOT HOLD"
    metric = table(job("", "m"), "pressure-tests")[0]
    assert metric["put_on_kPa"] == "10342"  # 1,500 x 6.894757 kPa


def test_the_report_and_the_regulators_fields_tell_of_them_too() -> None:
    tally = job()[0]
    told = dict(field for one in regulator_fields(tally) for field in one.fields)
    assert told["notices given"] == (
        "cementing to district office, telephone, 1 March at noon, by Nils"
    )
    casing = "1500 psi, 30 min, did not hold; Ama, 2026-03-02 01:10"
    assert told["casing test, pressure, time, result"] == casing
    assert dict(after_fields(tally).fields)["casing test, pressure and time"] == casing


def test_every_item_stands_once_though_some_were_pulled_out_and_others_run() -> None:
    told = running("S1", "1", "2")
    levels = iter((10, 21, 14, 30))

    def tank(*, mark: bool = False) -> None:
        told.says(TankRead, volume=read(f"{next(levels)} bbl", "volume"), mark=mark, despite="seen")

    tank(mark=True)
    told.runs("C1", "3", despite="as told")
    tank()
    for top in ("3", "C1"):
        told.says(PulledOut, number=top, reason="tight spot")
    tank()
    told.runs("C1", "4", despite="as told")
    tank()
    told.runs("5", despite="as told")
    tally = final_tally(told.job, told.entries, (len(told.entries), HEAD))
    rows = table((tally, told.entries), "trip-sheet")
    assert [row["no."] for row in rows if row["no."]] == ["S1", "1", "2", "C1", "4", "5"]
    assert [float(row["tank_bbl"]) for row in rows if row["tank_bbl"]] == [10, 21, 14, 30]
    remarks = [row["remarks"] for row in rows if row["tank_bbl"]]
    assert "2 items pulled out again later" in remarks[1]
    assert "2 items pulled out" in remarks[2]
    last = [row for row in rows if row["tank_bbl"]][-1]
    wanted = number(tally, "tank_total_difference", "bbl")
    assert float(last["cumulative_bbl"]) == pytest.approx(wanted, abs=6e-4)


def test_without_a_reading_every_item_stands_there_all_the_same() -> None:
    tally, _ = job()
    rows = table(job(), "trip-sheet")
    assert [row["no."] for row in rows] == [made.number for made in tally.job.string]
    pushed = sum(float(row["pipe_bbl"]) for row in rows)
    assert pushed == pytest.approx(number(tally, "displaced_closed", "bbl"), abs=5e-4 * len(rows))
