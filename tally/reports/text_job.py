"""The first sections of the text page: the job, its depths, its counts, its volumes."""

from __future__ import annotations

from tally.job.counts import Share
from tally.job.figures import show
from tally.job.setup import Pipe
from tally.reports.final_tally import FinalTally
from tally.reports.page import Column, Lines, Section, headings, rule, wrapped
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
_AMOUNT = (Column("", 34), Column("", 16, right=True), Column("", 48))
_PLACES = (
    Column("item", 34),
    Column("top", 13, right=True),
    Column("bottom", 13, right=True),
    Column("", 37),
)
_COUNTS = (
    Column("", 34),
    Column("joints", 8, right=True),
    Column("length", 13, right=True),
    Column("", 42),
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


def pipe_key(tally: FinalTally, pipe: Pipe) -> str:
    """Return the letter that stands for a pipe in the lines of the tally."""
    place = [one.name for one in tally.setup.pipes].index(pipe.name)
    return chr(ord("A") + place) if place < 26 else str(place + 1)


def job_section(tally: FinalTally) -> Section:
    """Return the well, the hole, the pipe, and when and by whom the string was landed."""
    setup, well = tally.setup, tally.setup.well
    previous = setup.previous
    lines = stacked(
        pair("well", well.name),
        pair("string", well.string),
        pair("operator, rig, location", well.operator, well.rig, well.location),
        pair("datum", well.datum, _elevation(well.datum_elevation)),
        pair("hole", f"{setup.hole.diameter.text} to {setup.hole.depth.text}"),
        pair("casing point", setup.hole.casing_point.text),
        pair(
            "previous casing",
            f"{previous.name}, shoe at {previous.shoe.text}, ID {previous.inner_diameter.text}"
            if previous
            else "",
        ),
        pair("mud weight", setup.pumping.mud_weight.text),
        pair("lengths", _lengths(tally)),
        pair("run", _run(tally)),
        pair("on depth", _landed(tally)),
        pair("hung off", _hung_off(tally)),
    )
    return Section((rule("JOB"),), (lines, _pipes(tally), ("",)))


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
    lines = [
        cells(
            _PIPES,
            pipe_key(tally, pipe),
            pipe.name,
            pipe.outer_diameter.text,
            pipe.inner_diameter.text,
            pipe.weight.text,
            pipe.grade or "-",
            pipe.connection or "-",
        )
        for pipe in tally.setup.pipes
    ]
    return stacked(("",), headings(_PIPES), *lines)


def depths_section(tally: FinalTally) -> Section:
    """Return where the string stands, and what the depths are measured from."""
    step, depths = tally.setup.step, tally.depths
    heading = (rule(f"DEPTHS AND LENGTHS in {step.unit}"),)
    if not tally.rows:
        return Section(heading, (("Nothing is run yet.", ""),))
    rests = "measured on depth" if tally.final else "the usual one of the set-up, NOT measured"
    hole, point = tally.setup.hole.depth, tally.setup.hole.casing_point
    sums = stacked(
        wrapped(_convention(tally.setup.well.datum)),
        ("",),
        cells(
            _AMOUNT, "string length", step.show(depths.string), "bottom of shoe to top of string"
        ),
        cells(_AMOUNT, "less stick-up", step.show(depths.stick_up), rests),
        cells(_AMOUNT, "SHOE DEPTH", step.show(depths.shoe), ""),
        ("",),
        cells(_AMOUNT, "hole depth", step.show(depths.hole), _typed(tally, hole)),
        cells(_AMOUNT, "less shoe depth", step.show(depths.shoe), ""),
        cells(_AMOUNT, "POCKET BELOW THE SHOE", step.show(depths.pocket), _negative(tally)),
        ("",),
        cells(_AMOUNT, "casing point", step.show(depths.casing_point), _typed(tally, point)),
        cells(_AMOUNT, "less shoe depth", step.show(depths.shoe), ""),
        cells(_AMOUNT, "shoe above casing point", step.show(depths.to_go), _past(tally)),
    )
    return Section(heading, (sums, _shoe_track(tally), _places(tally), ("",)))


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
        return "", "No float collar is in the string."
    joints = sum(1 for row in track if row.joint)
    return stacked(
        ("",),
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


def counts_section(tally: FinalTally) -> Section:
    """Return the counts that must agree, by number and by length."""
    sums, step = tally.balance, tally.setup.step

    def line(label: str, share: Share, note: str = "") -> Lines:
        return cells(_COUNTS, label, f"{share.count:,}", step.show(share.length), note)

    parts = (sums.run, sums.left, sums.rejected, sums.laid_down)
    lines = stacked(
        headings(_COUNTS),
        line("received", plus(sums.on_location, tally.sent_away)),
        line("less sent away", tally.sent_away),
        line("ON LOCATION", sums.on_location),
        ("",),
        line("run", sums.run),
        line("left on rack", sums.left),
        line("rejected", sums.rejected),
        line("laid down", sums.laid_down),
        line("ACCOUNTED FOR", plus(*parts)),
        line("accounted for less on location", sums.difference, _word(agrees=sums.agrees)),
        ("",),
        line("joints run", sums.run),
        line("other items of the string", tally.others, "pieces, not joints"),
        line("STRING LENGTH", plus(sums.run, tally.others), "pieces and length"),
        ("",),
        _counted(tally),
    )
    return Section((rule(f"COUNTS, lengths in {step.unit}"),), (lines, ("",)))


def plus(*shares: Share) -> Share:
    """Return shares added up."""
    return Share(sum(one.count for one in shares), sum(one.length for one in shares))


def _counted(tally: FinalTally) -> Lines:
    landing = tally.job.landing
    if landing is None:
        return wrapped("The joints left on the rack are not counted by a person yet.")
    left = tally.balance.left.count
    differs = landing.counted - left
    told = _word(agrees=not differs) + (f" ({differs:+d}): {landing.reason}" if differs else "")
    return cells(
        _COUNTS,
        "counted on the rack by a person",
        f"{landing.counted:,}",
        "",
        f"{who(landing.by, landing.at)}; {told}",
    )


def _word(*, agrees: bool) -> str:
    return "agrees" if agrees else "DOES NOT AGREE"


def volumes_section(tally: FinalTally) -> Section:
    """Return the volumes and weights of the string as run; each is rounded by itself."""
    lines = []
    for key in _VOLUMES:
        figure = tally.figures[key]
        value = show(tally.job, figure.value, figure.quantity)
        lines.append(cells(_AMOUNT, figure.label, value, figure.missing or figure.formula))
    told = "Worked out from the lengths as run; each is rounded by itself."
    return Section((rule("VOLUMES AND WEIGHTS"),), (stacked((told, ""), *lines, ("",)),))
