"""The sections of the text page with depths and volumes, and what they are measured from."""

from __future__ import annotations

from tally.job.figures import show
from tally.job.job import Job
from tally.reports.final_tally import FinalTally
from tally.reports.guard import plain
from tally.reports.page import Column, Lines, Section, headings, rule, wrapped
from tally.reports.text_parts import cells, stacked, who
from tally.units import Measure

_AMOUNT = (Column("", 34), Column("", 16, right=True), Column("", 48))
_PLACES = (
    Column("item", 34),
    Column("top", 13, right=True),
    Column("bottom", 13, right=True),
    Column("", 37),
)
_VOLUMES = (
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
    convention = (*wrapped(plain(_convention(tally.setup.well.datum))), "")
    return Section(heading, (convention, *_sums(tally), _shoe_track(tally), _places(tally), ("",)))


def _sums(tally: FinalTally) -> tuple[Lines, ...]:
    """Return three sums, each of which adds up as printed."""
    depths, hole = tally.depths, tally.setup.hole
    rests = "measured on depth" if tally.final else "the usual one of the set-up, NOT measured"
    point = _typed(tally, hole.casing_point)
    return (
        _sum(
            tally,
            ("string length", depths.string, "bottom of shoe to top of string"),
            ("less stick-up", depths.stick_up, rests),
            ("SHOE DEPTH", depths.shoe, ""),
        ),
        _sum(
            tally,
            ("hole depth", depths.hole, _typed(tally, hole.depth)),
            ("less shoe depth", depths.shoe, ""),
            ("POCKET BELOW THE SHOE", depths.pocket, _negative(tally)),
        ),
        _sum(
            tally,
            ("casing point", depths.casing_point, point),
            ("less shoe depth", depths.shoe, ""),
            ("shoe above casing point", depths.to_go, _past(tally)),
        ),
    )


def _sum(tally: FinalTally, *amounts: tuple[str, int, str]) -> Lines:
    show = tally.setup.step.show
    lines = [cells(_AMOUNT, label, show(steps), told) for label, steps, told in amounts]
    return (*stacked(*lines), "")


def _convention(datum: str) -> str:
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
    track, step = tally.shoe_track, tally.setup.step
    if not track:
        return ("No float collar is in the string.",)
    joints = sum(1 for row in track if row.joint)
    return stacked(
        cells(
            _AMOUNT,
            "SHOE TRACK",
            step.show(track[-1].cumulative),
            f"{joints} joints, shoe to top of collar",
        ),
        cells(_AMOUNT, "FLOAT COLLAR, TOP", step.show(track[-1].top), "where the plugs land"),
    )


def _places(tally: FinalTally) -> Lines:
    show = tally.setup.step.show
    lines = [
        cells(
            _PLACES,
            f"{row.kind} {row.number}" if row.kind != row.number else row.kind,
            show(row.top),
            show(row.bottom),
            row.description,
        )
        for row in tally.rows
        if not row.joint
    ]
    return stacked(("",), headings(_PLACES), *lines) if lines else ()


def volumes_section(tally: FinalTally) -> Section:
    """Return the volumes and weights of the string as run; each is rounded by itself."""
    lines = []
    auto_fill = ("let_in",) if tally.figures["let_in"].value is not None else ()
    for key in (*_VOLUMES, *auto_fill):
        figure = tally.figures[key]
        value = show(tally.job, figure.value, figure.quantity)
        lines.append(cells(_AMOUNT, figure.label, value, figure.missing or figure.formula))
    told = "Worked out from the lengths as run; each is rounded by itself."
    converted = wrapped(plain(_converted(tally.job))) if auto_fill else ()
    parts = (stacked((told, ""), *lines, ("",)), (*converted, "") if converted else ())
    return Section((rule("VOLUMES AND WEIGHTS"),), parts)


def _converted(job: Job) -> str:
    """Return who converted the auto-fill float, when, and what was seen."""
    made = job.converted
    if made is None:
        return "CHECK: the auto-fill float was not said to be converted."
    seen = " and ".join(each.text for each in (made.pressure, made.rate) if each)
    at = f" at {seen}" if seen else ""
    return f"The auto-fill float was converted{at}: {who(made.by, made.at)} (entry {made.seq})."
