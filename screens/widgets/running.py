"""What the running page says above and below its block: the figures, the count, what is NEXT."""

from __future__ import annotations

from textual.content import Content

from screens.ink import ATTENTION, BOLD, INK, QUIET, STOP, Line, line
from screens.widgets.block import short
from screens.widgets.large import large
from screens.widgets.rack_list import ordinal
from tally.job import depths, volumes
from tally.job.counts import balance, coming, goes_above, next_item, on_top
from tally.job.entry import clock, later
from tally.job.figures import TALLY, figure, show
from tally.job.fittings import due_next, due_on
from tally.job.flow import flow_check_due
from tally.job.gates import applies
from tally.job.hold_point import not_released
from tally.job.job import Item, Job, Made
from tally.job.stopped import stopped
from tally.job.working import working


def shouted(job: Job, width: int) -> Content:
    """Return where the shoe is, what is to go, and about how many joints."""
    shoe, to_go = figure(job, "shoe_depth"), figure(job, "to_go")
    past = (to_go.value or 0) < 0
    return (
        Line(width)
        .put(0, f"SHOE AT {show(job, shoe.value, TALLY)}", BOLD)
        .put(27, _to_go(job, to_go.value), ATTENTION if past else BOLD)
        .put(53, _joints_to_go(job), BOLD)
        .content()
    )


def shouted_large(job: Job, width: int) -> list[Content]:
    """Return the same in large digits."""
    shoe, to_go = figure(job, "shoe_depth"), figure(job, "to_go")
    step = job.known.step
    return large(
        width,
        (0, f"SHOE AT, {step.unit}", step.show(int(shoe.value or 0))),
        (48, f"TO GO, {step.unit}", step.show(int(to_go.value or 0))),
        (96, "JOINTS TO GO", str(figure(job, "joints_to_go").value)),
    )


def _joints_to_go(job: Job) -> str:
    if job.landing is not None:
        return f"ON DEPTH {clock(job.landing.at)}"
    need, spare = depths.joints_to_go(job)
    if spare < 0:
        return f"{need} joints, {-spare} short"
    return f"about {need} joints, {spare} spare"


def counts_line(job: Job, width: int) -> Content:
    """Return the count that must agree."""
    sums = balance(job)
    text = (
        f"on location {sums.on_location.count} = run {sums.run.count} + left on rack "
        f"{sums.left.count} + rejected {sums.rejected.count} + laid down {sums.laid_down.count}"
    )
    out = sums.difference
    word = "agrees" if sums.agrees else f"OUT BY {out.count:+d}"
    return Line(width).put(0, text).put(len(text) + 4, word, INK if sums.agrees else STOP).content()


def next_lines(job: Job, width: int = 80) -> list[Content]:
    """Return the item that is due, and the two after it; on depth, what comes after running."""
    if job.landing is not None:
        return _landed(job)
    if job.setup is None:
        return []
    upcoming, top = _some(job, 3), on_top(job)
    if not upcoming and top is not None:
        return _closed(job, top)
    if not upcoming:
        return [line("NEXT  the rack is empty: d on depth, or F3 to receive joints", BOLD)]
    first, *then = upcoming
    halt = stopped(job)
    if halt:
        return _halted(halt)
    if depths.to_go(job) <= 0:
        below = depths.below_hole(job) > 0
        what, style = ("p pulls it out", STOP) if below else ("d on depth", BOLD)
        return [
            line(f"NEXT  the shoe is {_shoe_is(job)}: {what}", style),
            line(f"      {named(first)} is the next on the rack", QUIET),
        ]
    length = job.known.step.with_unit(first.length)
    turn = f", the {ordinal(job.joints_run + 1)}" if first.kind == "joint" else ""
    due = f"NEXT  {named(first)}{turn}   {length}   "
    what = ", ".join(str(fitting) for fitting in due_next(job))
    if len(due) + len(what) > width:
        what = short(due_next(job), width - len(due))
    return [
        line(due + what, BOLD),
        _goes_past(job, first) or _then(job, then),
    ]


def _halted(halt: str) -> list[Content]:
    """Return why no pipe is run, and who leads then, each on a line that 80 columns hold."""
    why, _, who_leads = halt.partition("; ")
    if who_leads:
        return [
            line(f"NEXT  no pipe is run, t or o: {why}", STOP),
            line(f"      {who_leads}", STOP),
        ]
    return [line("NEXT  no pipe is run: t trouble, o flow check", STOP), line(f"      {why}")]


def _closed(job: Job, top: Made) -> list[Content]:
    """Return that nothing is run above a hanger or a landing joint, and where the shoe hangs."""
    style = ATTENTION if depths.to_go(job) else QUIET
    return [
        line(f"NEXT  the {top.kind} is on top: d on depth, or p pulls it out", BOLD),
        line(f"      nothing is run above it; the shoe is {_shoe_is(job)}", style),
    ]


def _shoe_is(job: Job, kind: str = "", more: int = 0) -> str:
    """Return where the shoe is with an item more, by the casing point and the hole."""
    left, told = depths.to_go(job) - more, job.known.step
    below = depths.below_hole(job, kind, more)
    if below > 0:
        return f"{told.with_unit(below)} BELOW THE HOLE"
    if left == 0:
        return "at the casing point"
    return f"{told.with_unit(abs(left))} {'above' if left > 0 else 'past'} the casing point"


def _goes_past(job: Job, item: Item) -> Content | None:
    """Return that the next item puts the shoe past the casing point, or below the hole."""
    if depths.to_go(job) >= item.length:
        return None
    below = depths.below_hole(job, item.kind, item.length) > 0
    return line(
        f"      it puts the shoe {_shoe_is(job, item.kind, item.length)}",
        STOP if below else ATTENTION,
    )


def _then(job: Job, after: list[Item]) -> Content:
    """Return what comes after the next item; what is wanted before it, where something is."""
    due = next_item(job)
    joint = job.joints_run + (due is not None and due.kind == "joint")
    told = []
    for item in after:
        joint += item.kind == "joint"
        fittings = due_on(job, joint) if item.kind == "joint" else ()
        with_what = f" ({short(fittings, 20)})" if fittings else ""
        told.append((item.number if item.kind == "joint" else named(item)) + with_what)
    then = f"      then {', '.join(told)}" if told else "      the last one listed"
    wanted = _wanted(job)
    if wanted:
        return line(f"{then}   {wanted}", ATTENTION)
    return line(then + _on_depth_about(job), QUIET)


def _on_depth_about(job: Job) -> str:
    """Return when the string is on depth if it goes on as over the last ten items, or nothing."""
    ahead = figure(job, "time_to_depth")
    if ahead.value is None:
        return ""
    return f"   on depth about {clock(later(job.string[-1].at, float(ahead.value)))}"


def _wanted(job: Job) -> str:
    """Return what is wanted before the next item: a flow check, the hold point, or nothing."""
    hold_point = "g HOLD POINT crew and hole ready" if not_released(job) else ""
    return flow_check_due(job) or hold_point


def _landed(job: Job) -> list[Content]:
    shoe = show(job, depths.shoe_depth(job), TALLY)
    hung = "" if job.hung_off else "   h hung off"
    return [
        line(f"NEXT  on depth, shoe at {shoe}: {_after_running(job)}{hung}", BOLD),
        _open_exceptions(job),
    ]


def _open_exceptions(job: Job) -> Content:
    count = len(job.open_exceptions())
    if volumes.entering(job):
        return line("      the auto-fill float is not converted: a", ATTENTION)
    if not count:
        return line("      F7 the final tally", QUIET)
    one = "exception is" if count == 1 else "exceptions are"
    return line(f"      {count} {one} open: F7, o", ATTENTION)


def _after_running(job: Job) -> str:
    """Return what comes once the string is on depth: the first page with a step still open."""
    for page, words in (
        ("mud", "F5 condition the mud"),
        ("plugs", "F6 the plugs"),
        ("waiting", "F6, g waiting on cement"),
    ):
        for plan in working(job):
            steps = (step for step in plan.steps if plan.page == page and applies(job, step))
            if any((plan.id, step.id) not in job.steps for step in steps):
                return words
    return "every step is entered"


def _some(job: Job, count: int) -> list[Item]:
    upcoming = (item for item in coming(job) if goes_above(job, item.kind))
    return [item for _, item in zip(range(count), upcoming, strict=False)]


def named(item: Item) -> str:
    """Return an item as it is called on the floor."""
    if item.number.casefold() == item.kind:
        return f"the {item.kind}"
    return f"joint {item.number}" if item.kind == "joint" else f"{item.kind} {item.number}"


def _to_go(job: Job, steps: float | None) -> str:
    value = int(steps or 0)
    words = "TO GO" if value >= 0 else "PAST"
    return f"{words} {job.known.step.with_unit(abs(value))}"
