"""The sections of the text page with depths and volumes, and what they are measured from."""

from __future__ import annotations

from tally.job.figures import show
from tally.reports.final_tally import FinalTally
from tally.reports.guard import plain
from tally.reports.page import Column, Lines, Section, headings, rule, wrapped
from tally.reports.tally_lines import Row
from tally.reports.text_parts import cells, stacked, who
from tally.units import Measure

Amount = tuple[str, int, str]
"""What it is, its whole steps, and what is to be said of it."""

_AMOUNT = (Column("", 34), Column("", 16, right=True), Column("", 48))
_PLACES = (
    Column("item", 34),
    Column("top", 13, right=True),
    Column("bottom", 13, right=True),
    Column("", 37),
)
NO_COLLAR = "No float collar is in the string."
ROUNDED = "Worked out from the lengths as run; each is rounded by itself."
VOLUMES = (
    "casing_capacity",
    "shoe_track_volume",
    "displacement_to_collar",
    "annulus_volume",
    "displaced_open",
    "displaced_closed",
    "filled",
    "tank_total_expected",
    "tank_total_seen",
    "tank_total_difference",
    "weight_in_air",
    "weight_in_mud",
)


def depths_section(tally: FinalTally) -> Section:
    """Return where the string stands, and what the depths are measured from."""
    heading = (rule(f"DEPTHS AND LENGTHS in {tally.setup.step.unit}"),)
    if not tally.rows:
        return Section(heading, (("Nothing is run yet.", ""),))
    measured = (*wrapped(plain(convention(tally.setup.well.datum))), "")
    return Section(heading, (measured, *_sums(tally), _shoe_track(tally), _places(tally), ("",)))


def _sums(tally: FinalTally) -> tuple[Lines, ...]:
    return tuple(_sum(tally, *amounts) for amounts in sums(tally))


def sums(tally: FinalTally) -> tuple[tuple[Amount, ...], ...]:
    """Return three sums, each of which adds up as printed."""
    depths, hole = tally.depths, tally.setup.hole
    rests = "measured on depth" if tally.final else "the usual one of the set-up, NOT measured"
    point = _typed(tally, hole.casing_point)
    return (
        (
            ("string length", depths.string, "bottom of shoe to top of string"),
            ("less stick-up", depths.stick_up, rests),
            ("SHOE DEPTH", depths.shoe, ""),
        ),
        (
            ("hole depth", depths.hole, _typed(tally, hole.depth)),
            ("less shoe depth", depths.shoe, ""),
            ("POCKET BELOW THE SHOE", depths.pocket, _negative(tally)),
        ),
        (
            ("casing point", depths.casing_point, point),
            ("less shoe depth", depths.shoe, ""),
            ("shoe above casing point", depths.to_go, _past(tally)),
        ),
    )


def _sum(tally: FinalTally, *amounts: Amount) -> Lines:
    show = tally.setup.step.show
    lines = [cells(_AMOUNT, label, show(steps), told) for label, steps, told in amounts]
    return (*stacked(*lines), "")


def convention(datum: str) -> str:
    """Return what depths are measured from, and which way."""
    return (
        f"Depths are measured from the {datum}; down is positive, and a top that stands above the "
        f"{datum} has a minus sign. They are counted from the shoe up. Stick-up is the part of the "
        f"string above the {datum}: shoe depth = string length - stick-up."
    )


def _typed(tally: FinalTally, measure: Measure) -> str:
    converted = not measure.text.endswith(f" {tally.setup.step.unit}")
    return f"typed as {measure.text}" + (", converted" if converted else "")


def _negative(tally: FinalTally) -> str:
    return "" if tally.depths.pocket >= 0 else "CHECK: the shoe is below the hole depth"


def _past(tally: FinalTally) -> str:
    return "" if tally.depths.to_go >= 0 else "minus: the shoe is past it"


def _shoe_track(tally: FinalTally) -> Lines:
    show = tally.setup.step.show
    lines = [cells(_AMOUNT, label, show(steps), told) for label, steps, told in shoe_track(tally)]
    return stacked(*lines) if lines else (NO_COLLAR,)


def shoe_track(tally: FinalTally) -> tuple[Amount, ...]:
    """Return the length of the shoe track and the depth of the collar, where there is one."""
    track = tally.shoe_track
    if not track:
        return ()
    joints = sum(1 for row in track if row.joint)
    return (
        ("SHOE TRACK", track[-1].cumulative, f"{joints} joints, shoe to top of collar"),
        ("FLOAT COLLAR, TOP", track[-1].top, "where the plugs land"),
    )


def _places(tally: FinalTally) -> Lines:
    show = tally.setup.step.show
    lines = [
        cells(_PLACES, called(row), show(row.top), show(row.bottom), row.description)
        for row in tally.rows
        if not row.joint
    ]
    return stacked(("",), headings(_PLACES), *lines) if lines else ()


def called(row: Row) -> str:
    """Return an item that is no joint by its kind and its number, where that is another word."""
    return f"{row.kind} {row.number}" if row.kind != row.number else row.kind


def volumes_section(tally: FinalTally) -> Section:
    """Return the volumes and weights of the string as run; each is rounded by itself."""
    lines = [cells(_AMOUNT, *told) for told in volumes(tally)]
    auto_fill = converted(tally)
    parts = stacked((ROUNDED, ""), *lines, ("",))
    seen = (*wrapped(plain(auto_fill)), "") if auto_fill else ()
    return Section((rule("VOLUMES AND WEIGHTS"),), (parts, seen))


def volumes(tally: FinalTally) -> tuple[tuple[str, str, str], ...]:
    """Return each volume and weight with its unit, and how it is worked out or what it lacks."""
    auto_fill = ("let_in",) if tally.figures["let_in"].value is not None else ()
    figures = [tally.figures[key] for key in (*VOLUMES, *auto_fill)]
    return tuple(
        (one.label, show(tally.job, one.value, one.quantity), one.missing or one.formula)
        for one in figures
    )


def converted(tally: FinalTally) -> str:
    """Return who converted an auto-fill float, when, and what was seen; nothing without one."""
    if tally.figures["let_in"].value is None:
        return ""
    made = tally.job.converted
    if made is None:
        return "CHECK: the auto-fill float was not said to be converted."
    seen = " and ".join(each.text for each in (made.pressure, made.rate) if each)
    at = f" at {seen}" if seen else ""
    return f"The auto-fill float was converted{at}: {who(made.by, made.at)} (entry {made.seq})."
