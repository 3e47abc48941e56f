"""The smaller reports of what is kept beside the work: notices, calibrations, exceptions."""

from __future__ import annotations

from collections.abc import Iterator

from tally.job.hold_points import hold_points
from tally.job.kept_records import Calibration, Notice
from tally.reports.final_tally import FinalTally
from tally.reports.said import Accepted, Corrected
from tally.reports.sheet import Cells, Column, Grid, Part, Sheet, number, sheet, tens
from tally.reports.text_parts import stamp, who

NO_CALIBRATION = "No calibration is noted of a gauge, a scale or a torque turn system (F2, r)."


def notices_sheet(tally: FinalTally) -> Sheet:
    """Return who was told of the job, of what, when, and by what means."""
    columns = (
        Column("told", 20),
        Column("of what"),
        Column("how", 13),
        Column("when", 16),
        Column("given by", 15),
        Column("answer", 14),
    )
    rows = (_notice_row(one) for one in tally.job.notices)
    grid = Grid(columns, tens(rows))
    parts = (Part("Notices given", grid=grid, none="No notice is entered (F2, r)."),)
    return sheet("notices", "Notices given", tally, parts, ("company representative",))


def _notice_row(one: Notice) -> Cells:
    return (one.to, one.about, one.means, one.when or stamp(one.at), one.given, one.answer)


def calibrations_sheet(tally: FinalTally) -> Sheet:
    """Return when gauges, scales and torque turn systems were calibrated."""
    parts = (calibrations_part(tally, file=""),)
    return sheet("calibrations", "Calibration dates", tally, parts, ("company representative",))


def calibrations_part(tally: FinalTally, file: str = "calibrations") -> Part:
    """Return the calibrations, the last of each thing, and whether they still held."""
    columns = (
        Column("what", 20),
        Column("serial no.", 12),
        Column("calibrated", 10),
        Column("holds until", 11),
        Column("state", 8),
        Column("calibrated by", 15),
        Column("noted, and remarks"),
    )
    rows = (_calibration_row(tally, one) for one in tally.job.calibrations)
    return Part("Calibrations", grid=Grid(columns, tens(rows), file), none=NO_CALIBRATION)


def _calibration_row(tally: FinalTally, one: Calibration) -> Cells:
    due = one.due or "no day"
    noted = "; ".join(each for each in (who(one.by, one.at), one.note) if each)
    return (one.what, one.serial, one.day, due, held(tally.job.last, one), one.done_by, noted)


def held(last: str, one: Calibration) -> str:
    """Return whether a calibration still held when the last entry was made."""
    if not one.due:
        return "not said"
    return "held" if one.due >= last[:10] else "RUN OUT"


def exceptions_sheet(tally: FinalTally) -> Sheet:
    """Return the differences that were accepted, open ones first, hold points, corrections."""
    still = [one for one in tally.exceptions if not one.closed_by]
    closed = [one for one in tally.exceptions if one.closed_by]
    parts = (
        Part(f"Open: {len(still)}", grid=_accepted(still), none="None is open."),
        Part(f"Closed: {len(closed)}", grid=_accepted(closed), none="None was closed."),
        hold_points_part(tally),
        Part(
            f"Corrections: {len(tally.corrections)}",
            grid=_corrected(tally.corrections),
            none="None.",
        ),
    )
    signing = ("company representative",)
    return sheet("exceptions", "Exceptions", tally, parts, signing)


def _accepted(some: list[Accepted]) -> Grid:
    columns = (
        number("entry", 6),
        Column("time", 16),
        Column("by", 16),
        Column("what"),
        Column("how it was closed", 26),
    )
    rows = (
        (
            str(one.seq),
            stamp(one.at),
            one.by,
            one.what,
            f"{one.closing}; {who(one.closed_by, one.closed_at)}" if one.closed_by else "OPEN",
        )
        for one in some
    )
    return Grid(columns, tens(rows))


def hold_points_part(tally: FinalTally) -> Part:
    """Return the hold points that were passed, and by whom."""
    columns = (
        Column("hold point", 44),
        Column("released by", 20),
        Column("witness"),
        Column("time", 16),
    )
    rows = tuple(_held_rows(tally))
    return Part(
        f"Hold points passed: {len(rows)}",
        grid=Grid(columns, tens(rows), "hold-points"),
        none="None is passed yet.",
    )


def _held_rows(tally: FinalTally) -> Iterator[Cells]:
    for one in hold_points(tally.job):
        yield (one.words, one.released, one.witness, stamp(one.at))


def _corrected(corrections: tuple[Corrected, ...]) -> Grid:
    columns = (
        number("entry", 6),
        number("corrects", 8),
        Column("time and by", 24),
        Column("was"),
        Column("is now"),
        Column("reason", 16),
    )
    rows = (
        (str(one.seq), str(one.of), who(one.by, one.at), one.was, _now(one), one.reason)
        for one in corrections
    )
    return Grid(columns, tens(rows), "corrections")


def _now(one: Corrected) -> str:
    """Return what stands now, with both of each value where the words do not tell them."""
    if not one.unsaid:
        return one.now
    return one.unsaid if one.was == one.now else f"{one.now} ({one.unsaid})"
