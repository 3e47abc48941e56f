"""The first section of the text page: the job, its pipe, and how its lengths were measured."""

from __future__ import annotations

from tally.job.setup import Pipe
from tally.reports.final_tally import FinalTally
from tally.reports.page import Column, Lines, Section, headings, rule
from tally.reports.text_parts import cells, offset, pair, stacked, stamp, who
from tally.units import Measure

_PIPES = (
    Column("key", 4),
    Column("pipe", 22),
    Column("OD", 11, right=True),
    Column("ID", 11, right=True),
    Column("weight", 12, right=True),
    Column("grade", 14),
    Column("connection", 20),
)


def pipe_key(tally: FinalTally, pipe: Pipe) -> str:
    """Return the letter that stands for a pipe in the lines of the tally."""
    place = [one.name for one in tally.setup.pipes].index(pipe.name)
    return chr(ord("A") + place) if place < 26 else str(place + 1)


def job_section(tally: FinalTally) -> Section:
    """Return the well, the hole, the pipe, and when and by whom the string was landed."""
    lines = stacked(*(pair(label, *told) for label, *told in job_lines(tally)))
    return Section((rule("JOB"),), (lines, _pipes(tally), ("",)))


def job_lines(tally: FinalTally) -> tuple[tuple[str, ...], ...]:
    """Return a label and what stands for it, part by part; a part may be empty."""
    setup, well = tally.setup, tally.setup.well
    previous = setup.previous
    return (
        ("well", well.name),
        ("string", well.string),
        ("operator, rig, location", well.operator, well.rig, well.location),
        ("datum", well.datum, _elevation(well.datum_elevation)),
        ("hole", f"{setup.hole.diameter.text} to {setup.hole.depth.text}"),
        ("casing point", setup.hole.casing_point.text),
        (
            "previous casing",
            f"{previous.name}, shoe at {previous.shoe.text}, ID {previous.inner_diameter.text}"
            if previous
            else "",
        ),
        ("mud weight", setup.pumping.mud_weight.text),
        ("lengths", _lengths(tally)),
        ("run", _run(tally)),
        ("on depth", _landed(tally)),
        ("hung off", _hung_off(tally)),
    )


def _elevation(elevation: Measure | None) -> str:
    return f"elevation {elevation.text}" if elevation else "elevation not given"


def _lengths(tally: FinalTally) -> str:
    lengths, step = tally.setup.lengths, tally.setup.step
    how = f"{lengths.measured_as} length measured"
    loss = f", less make-up loss {lengths.make_up_loss}" if lengths.make_up_loss else ""
    return f"{how}{loss}; rounded once to whole steps of {step.step_text}, sums are sums of steps"


def _run(tally: FinalTally) -> str:
    if not tally.rows:
        return "nothing is run yet"
    offsets = ", ".join(sorted({offset(row.at) for row in tally.rows}))
    first, last = stamp(tally.rows[0].at), stamp(tally.rows[-1].at)
    return f"{first} to {last}, times at {offsets} from UTC"


def _landed(tally: FinalTally) -> str:
    landing = tally.job.landing
    if landing is None:
        return "NOT YET: this tally is not final"
    return f"{who(landing.by, landing.at)}, entry {landing.seq}"


def _hung_off(tally: FinalTally) -> str:
    hung = tally.job.hung_off
    if hung is None:
        return "not entered"
    return f"{hung.load.text}, " + (f"{hung.how}, " if hung.how else "") + who(hung.by, hung.at)


def _pipes(tally: FinalTally) -> Lines:
    lines = [cells(_PIPES, *row) for row in pipe_rows(tally)]
    return stacked(("",), headings(_PIPES), *lines)


def pipe_rows(tally: FinalTally) -> tuple[tuple[str, ...], ...]:
    """Return the pipes with the letters that stand for them."""
    return tuple(
        (
            pipe_key(tally, pipe),
            pipe.name,
            pipe.outer_diameter.text,
            pipe.inner_diameter.text,
            pipe.weight.text,
            pipe.grade or "-",
            pipe.connection or "-",
        )
        for pipe in tally.setup.pipes
    )
