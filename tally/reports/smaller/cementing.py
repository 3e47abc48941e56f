"""The smaller reports of the cementing: pressure tests, pressure and volume, the mixing log."""

from __future__ import annotations

from collections.abc import Iterator

from tally.job.cementing_records import MixReading
from tally.job.job import Job, PumpReading, StepRecord
from tally.job.kept_records import PressureTest
from tally.reports.cement_fields import displaced
from tally.reports.fields import reckoned, seen, step_record
from tally.reports.final_tally import FinalTally
from tally.reports.mixing_fields import mixed_totals, samples, surface_told
from tally.reports.pump_curve import NOT_COUNTED, Event, every_reading, pump_curve
from tally.reports.sheet import Cells, Column, Grid, Part, Sheet, number, sheet, tens
from tally.reports.smaller.amounts import NOTHING, digits, headed, read_as
from tally.reports.smaller.kept import calibrations_part
from tally.reports.text_parts import stamp
from tally.units import Measure, read

_STEPS = (
    ("line-test", "lines and head"),
    ("bump-pressure", "plug bumped"),
    ("floats-held", "floats"),
)
"""Steps of the shipped lists at which something is put under pressure and watched."""
SIGNING = ("cementer", "driller", "company representative")


def pressure_tests_sheet(tally: FinalTally) -> Sheet:
    """Return every test under pressure: with what, how long, what was left, whether it held."""
    units = tally.setup.shown
    columns = (
        Column("time", 16),
        Column("tested", 16),
        headed(units, "put on", "pressure", 8),
        headed(units, "for", "time", 5),
        headed(units, "at end", "pressure", 8),
        number("fall, %", 5),
        Column("result", 13),
        Column("by, read on, remarks"),
    )
    rows = sorted((*_step_tests(tally), *_tests(tally), *_shoe_tests(tally.job)))
    parts = (
        Part("Tests", grid=Grid(columns, tens(rows)), none="No test under pressure is entered."),
        calibrations_part(tally),
    )
    return sheet("pressure-tests", "Pressure test record", tally, parts, SIGNING)


def _step_tests(tally: FinalTally) -> Iterator[Cells]:
    for step_id, what in _STEPS:
        record = step_record(tally.job, step_id)
        if record is not None:
            yield _step_test(tally, what, record)


def _step_test(tally: FinalTally, what: str, record: StepRecord) -> Cells:
    pressure = _pressure(record.value)
    people = ", ".join(each for each in (record.by, record.witness) if each)
    result = record.state or ("given" if pressure else seen(record))
    return (
        stamp(record.at),
        what,
        read_as(tally.setup.shown, pressure),
        *(NOTHING,) * 3,
        result if record.outcome == "done" else record.outcome,
        "; ".join(each for each in (people, record.note, record.differs) if each),
    )


def _pressure(text: str) -> Measure | None:
    return read(text, "pressure") if text else None


def _tests(tally: FinalTally) -> Iterator[Cells]:
    units = tally.setup.shown
    for one in tally.job.pressure_tests:
        yield (
            stamp(one.at),
            one.what,
            read_as(units, one.pressure),
            read_as(units, one.time),
            read_as(units, one.ended),
            _fall(one),
            "held" if one.held else "DID NOT HOLD",
            "; ".join(each for each in (one.by, one.device, one.note) if each),
        )


def _fall(one: PressureTest) -> str:
    if one.ended is None:
        return NOTHING
    return f"{100 * (one.pressure.value - one.ended.value) / one.pressure.value:.1f}"


def _shoe_tests(job: Job) -> Iterator[Cells]:
    for one in job.shoe_tests:
        result = "held" if one.held else "DID NOT HOLD"
        cleared = f"cleared by {one.cleared}" if one.cleared else ""
        told = "; ".join(each for each in (cleared, one.how) if each)
        yield (stamp(one.at), "shoe", *(NOTHING,) * 4, result, told)


def pumping_sheet(tally: FinalTally) -> Sheet:
    """Return pressure, rate and volume as they were read, with the events between them."""
    units = tally.setup.shown
    columns = (
        Column("time", 16),
        headed(units, "tank", "volume"),
        number("strokes", 8),
        headed(units, "pressure", "pressure"),
        headed(units, "rate", "flow rate"),
        headed(units, "returned", "volume"),
        Column("returns", 12),
        Column("events"),
    )
    found = pump_curve(tally.job)
    rows = _pump_rows(tally, found.events if found else ())
    told = (
        ("displacement by the programme", reckoned(tally, "displacement_to_collar")),
        *displaced(tally),
    )
    parts = (
        Part("Displacement", fields=told),
        Part("Displacement: pressure and rate against volume", picture=True),
        Part(
            "As read since the zero",
            grid=Grid(columns, tens(rows)),
            none="Nothing was read while the top plug was pumped down.",
        ),
        calibrations_part(tally),
    )
    return sheet("pumping", "Pressure and volume record", tally, parts, SIGNING)


def _pump_rows(tally: FinalTally, events: tuple[Event, ...]) -> list[Cells]:
    timed = [(one.at, 1, _pump_row(tally, one)) for one in every_reading(tally.job)]
    timed += [(one.at, 0, _event_row(tally, one)) for one in events]
    return [cells for _, _, cells in sorted(timed, key=lambda each: each[:2])]


def _pump_row(tally: FinalTally, one: PumpReading) -> Cells:
    units = tally.setup.shown
    return (
        stamp(one.at),
        read_as(units, one.tank),
        NOTHING if one.strokes is None else str(one.strokes),
        read_as(units, one.pressure),
        read_as(units, one.rate),
        read_as(units, one.returned),
        one.returns_seen,
        NOT_COUNTED if one in tally.job.in_doubt else "",
    )


def _event_row(tally: FinalTally, one: Event) -> Cells:
    volume = digits(tally.setup.shown, one.volume, "volume")
    unit = tally.setup.shown.unit("volume")
    said = f"{one.text}: {one.said}, at {volume} {unit}, {one.by}"
    return (stamp(one.at), *(NOTHING,) * 5, "", said)


def mixing_log_sheet(tally: FinalTally) -> Sheet:
    """Return the densities and what was used so far, as they were read while mixing."""
    units = tally.setup.shown
    columns = (
        Column("time", 16),
        Column("fluid"),
        headed(units, "gauge", "density"),
        headed(units, "balance", "density"),
        headed(units, "pumped", "volume", 10),
        number("sacks", 8),
        headed(units, "cement", "mass", 10),
        headed(units, "mix fluid", "volume", 10),
    )
    rows = (_mix_row(tally, one) for one in tally.job.mixing)
    surface = tuple(
        (f"{what} at surface", surface_told(tally, what) or "not seen")
        for what in ("spacer", "cement")
    )
    parts = (
        Part(
            "As read; what is used counts from the start of each fluid",
            grid=Grid(columns, tens(rows)),
            none="Nothing was read while mixing.",
        ),
        Part("In all", fields=(*mixed_totals(tally), *surface)),
        Part("Samples kept", fields=samples(tally), none="No sample is entered."),
        calibrations_part(tally),
    )
    signing = ("cementer", "company representative")
    return sheet("mixing-log", "Mixing log", tally, parts, signing)


def _mix_row(tally: FinalTally, one: MixReading) -> Cells:
    units = tally.setup.shown
    return (
        stamp(one.at),
        one.fluid,
        *(read_as(units, each) for each in (one.gauge, one.balance, one.pumped)),
        NOTHING if one.sacks is None else str(one.sacks),
        *(read_as(units, each) for each in (one.cement, one.mix_fluid)),
    )
