"""The displacement: what is left to the calculated bump, and the two counts side by side."""

from __future__ import annotations

from textual.content import Content

from screens.ink import ATTENTION, BOLD, QUIET, STOP, Line, line
from screens.widgets.age import age
from screens.widgets.beside import Beside, beside, tally_state
from tally.job.blind import awaited
from tally.job.entry import clock
from tally.job.figures import figure, show
from tally.job.figures.pumping import GIVEN, Aged, aged_left
from tally.job.float_check import float_check
from tally.job.job import Job, StepRecord
from tally.job.unlikely import in_doubt
from tally.job.with_readings import bumped


def bump_headline(job: Job, now: str, width: int) -> list[Content]:
    """Return the two lines that somebody would shout across the floor."""
    total = figure(job, "displacement_to_collar")
    if total.value is None:
        return [Line(width).put(0, total.missing, QUIET).content(), Line(width).content()]
    bump = bumped(job)
    aged = aged_left(job, bump.at if bump else now)
    if aged is None:
        return [_ahead(job, width), _collar(job, width)]
    first = _bumped(job, bump, aged, width) if bump else _left(job, aged, width)
    return [first, _limits(job, None if bump else aged, width)]


def _bumped(job: Job, bump: StepRecord, aged: Aged, width: int) -> Content:
    how = "past" if aged.left < 0 else "short of"
    volume = show(job, abs(aged.left), "volume")
    text = f"BUMP CALLED {clock(bump.at)}   {volume} {how} the calculated volume"
    by = "  ESTIMATE, read the counts" if aged.estimated else f"  ({_known(aged)})"
    if len(text) + len(by) > width:
        last = f"  (last count, {aged.count})" if aged.count else "  (given)"
        by = "  ESTIMATE" if aged.estimated else last
    style = ATTENTION if aged.estimated else QUIET
    return Line(width).put(0, text, BOLD).put(len(text), by, style).content()


def _known(aged: Aged) -> str:
    """Return how the volume is known that was displaced when the bump was called."""
    return f"last count, by the {aged.count}" if aged.count else GIVEN


def _ahead(job: Job, width: int) -> Content:
    """Return what the displacement will be; what a second person works out stays hidden."""
    total, strokes = figure(job, "displacement_to_collar"), figure(job, "strokes_to_collar")
    text = "DISPLACEMENT, HEAD TO COLLAR"
    if awaited(job, total.key):
        how = "hidden until the second person gives theirs"
        return Line(width).put(0, text, BOLD).put(len(text) + 3, how, QUIET).content()
    text = f"{text} {show(job, total.value, total.quantity)}"
    if awaited(job, strokes.key):
        counted, style = "strokes: the second person first", QUIET
    else:
        counted, style = f"{show(job, strokes.value, 'count')} strokes", BOLD
    return Line(width).put(0, text, BOLD).put(len(text) + 3, counted, style).content()


def _collar(job: Job, width: int) -> Content:
    depth = figure(job, "collar_depth")
    how = "final" if job.landing else "as the string hangs now"
    text = f"float collar at {show(job, depth.value, depth.quantity)}, {how}; as run, calculated"
    return Line(width).put(0, _with_band(job, text, width), QUIET).content()


def _with_band(job: Job, text: str, width: int) -> str:
    """Return a line with the band that the bump may come in, where it is known and has room."""
    first, last = figure(job, "bump_earliest"), figure(job, "bump_latest")
    if first.value is None or last.value is None or awaited(job, "displacement_to_collar"):
        return text
    shown = job.known.shown
    volumes = f"{shown.number(first.value, 'volume')} to {shown.show(last.value, 'volume')}"
    longer = f"{text}; band {volumes}"
    return longer if len(longer) <= width else text


def _left(job: Job, aged: Aged, width: int) -> Content:
    past = aged.left < 0
    word = "PAST THE CALCULATED BUMP" if past else "TO THE CALCULATED BUMP"
    text = f"{word}  {show(job, abs(aged.left), 'volume')}"
    text += " or more" if aged.held_back else ""
    text += "" if aged.strokes is None or aged.held_back else f"  {abs(aged.strokes)} strokes"
    text += "" if aged.time is None or past else f"  {show(job, aged.time, 'time')}"
    how = "  ESTIMATE, read the counts" if aged.estimated else f"  (by the {aged.count}: first)"
    if len(text) + len(how) > width:
        how = "  ESTIMATE" if aged.estimated else f"  ({aged.count})"
    return (
        Line(width)
        .put(0, text, STOP if past else BOLD)
        .put(len(text), how, ATTENTION if aged.estimated else QUIET)
        .content()
    )


def _limits(job: Job, aged: Aged | None, width: int) -> Content:
    total = figure(job, "displacement_to_collar")
    limit = job.known.limits.get("over_displacement")
    past = f", limit {limit.text} past it ({limit.owner})" if limit else ", no limit past it is set"
    read = f"   last reading {age(aged.age)} ago" if aged else ""
    text = f"bump at {show(job, total.value, 'volume')}{past}"
    return Line(width).put(0, _with_band(job, text, width - len(read)) + read, QUIET).content()


def float_check_line(job: Job) -> str:
    """Return what came back at the float check beside what was expected, and what it means."""
    meaning, expected = float_check(job), figure(job, "expected_back")
    if meaning is None or expected.value is None:
        return ""
    back = show(job, float(expected.value) + meaning.beyond, "volume")
    wanted = show(job, expected.value, "volume")
    return f"Float check: {back} back, {wanted} expected, {meaning.verdict}. {meaning.means}"


def beside_counts(job: Job, width: int) -> list[Content]:
    """Return tank against strokes, and the pressure as read."""
    tank, strokes = figure(job, "pumped_by_tank"), figure(job, "pumped_by_strokes")
    gap = figure(job, "count_difference")
    limit = job.known.limit("count_difference")
    agrees = None
    if gap.value is not None and limit is not None:
        agrees = abs(float(gap.value)) <= limit.value
    shown = job.known.shown
    unit = shown.unit("volume")

    def number(value: object) -> str:
        return shown.number(value, "volume") if isinstance(value, int | float) else "-"

    row = Beside(
        f"displaced, {unit}, by",
        number(strokes.value),
        number(tank.value),
        number(gap.value),
        tally_state(agrees) if gap.value is not None else "one count only",
        number(limit.value) if limit else "",
    )
    lines = beside(width, [row], ("strokes", "tank", "difference"))
    lines += [_pump(job, width)] if job.pumped else []
    return [*lines, *_in_doubt(job, width)]


def _in_doubt(job: Job, width: int) -> list[Content]:
    """Return the last look at the counts where it is in doubt: it is in none of the figures."""
    one = in_doubt(job)
    if one is None:
        return []
    counts = [one.tank.text] if one.tank else []
    counts += [f"{one.strokes} strokes"] if one.strokes is not None else []
    told = f" IN DOUBT, not counted: {', '.join(counts)} at {clock(one.at)}; r reads again"
    return [line(told[:width], ATTENTION)]


def _pump(job: Job, width: int) -> Content:
    """Return pressure and rate as last read."""
    reading = job.pumped[-1]
    parts = [
        f"{what} {show(job, measure.value, measure.quantity)}"
        for what, measure in (("pressure", reading.pressure), ("rate", reading.rate))
        if measure is not None
    ]
    told = "   ".join(parts) or "neither pressure nor rate"
    return Line(width).put(1, f"read at {clock(reading.at)}", QUIET).put(18, told).content()
