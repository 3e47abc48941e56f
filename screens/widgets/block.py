"""The block of ten: the page of the pocket tally, with its total brought forward."""

from __future__ import annotations

from textual.content import Content

from screens.ink import BOLD, INK, QUIET, Line, rule
from screens.widgets.rack_list import own_number
from tally.job import depths
from tally.job.entry import clock
from tally.job.job import LAID_DOWN, REJECTED, Fitting, Job, Made

ROWS = 10
SHORT = {"bow centralizer": "bow", "rigid centralizer": "rigid", "scratcher": "scr"}


def blocks(job: Job, width: int, height: int) -> list[Content]:
    """Return the block that is being written, and above it those before as far as there is room."""
    rows = min(ROWS, max(3, height - 3))
    starts = _starts(job)
    lines = _open_block(job, width, rows, starts[-1])
    room = height - len(lines)
    for start, end in zip(reversed(starts[:-1]), reversed(starts), strict=False):
        closed = _closed_block(job, width, start, end)
        room -= len(closed)
        if room < 0:
            break
        lines = [lines[0], *closed, *lines[1:]]
    return lines


def _starts(job: Job) -> list[int]:
    """Return the places in the string where each block of ten joints starts."""
    ends = [
        place + 1
        for place, made in enumerate(job.string)
        if made.joint and made.joint % ROWS == 0 and made.joint < job.joints_run
    ]
    return [0, *ends]


def _open_block(job: Job, width: int, rows: int, start: int) -> list[Content]:
    step = job.known.step
    items = job.string[start:]
    shown = items[-rows:]
    forward = shown[0].top - shown[0].length if shown else job.length
    joints = sum(1 for made in items if made.joint)
    return [
        rule(width, *_titles(job, width)),
        _forward(width, step.show(forward)),
        *(_row(job, made, width, made is job.string[-1]) for made in shown),
        *[Line(width).put(1, ".", QUIET).content()] * (rows - len(shown)),
        _so_far(job, width, joints, step.show(sum(made.length for made in items))),
    ]


def _closed_block(job: Job, width: int, start: int, end: int) -> list[Content]:
    step = job.known.step
    items = job.string[start:end]
    total = step.show(sum(made.length for made in items))
    words = f"{sum(1 for made in items if made.joint)} joints"
    return [
        *(_row(job, made, width, False) for made in items),
        Line(width).put(1, words, QUIET).end(29, total, QUIET).content(),
    ]


def _titles(job: Job, width: int) -> tuple[tuple[int, str], ...]:
    start = (max(job.joints_run, 1) - 1) // ROWS * ROWS + 1
    return (
        (15, f"joints {start}-{start + ROWS - 1}"),
        (21, "no."),
        (30, "length"),
        (41, "to here"),
        (52, "shoe"),
        (64, "installed"),
        (width, "in"),
    )


def _forward(width: int, total: str) -> Content:
    return Line(width).put(1, "brought forward", QUIET).end(40, total, QUIET).content()


def _row(job: Job, made: Made, width: int, last: bool) -> Content:
    step = job.known.step
    style = BOLD if last else INK
    shoe = made.top - depths.stick_up(job)
    name = str(made.joint) if made.joint else made.kind
    return (
        Line(width)
        .end(5 if made.joint else len(name) + 1, name, QUIET)
        .end(20, own_number(made.number, made.kind), style)
        .end(29, step.show(made.length), style)
        .end(40, step.show(made.top), style)
        .end(51, step.show(shoe), style)
        .put(54, short(made.fittings, width - 54 - 7), style)
        .end(width - 1, clock(made.at), QUIET)
        .content()
    )


def _so_far(job: Job, width: int, joints: int, total: str) -> Content:
    aside = [item for item in job.items.values() if item.state in (REJECTED, LAID_DOWN)]
    last = aside[-1] if aside else None
    why = f"{last.number} {last.state} ({last.reason})" if last else ""
    return (
        Line(width)
        .put(1, f"so far {joints} joint{'' if joints == 1 else 's'}", QUIET)
        .end(29, total, QUIET)
        .put(33, why[: width - 34], QUIET)
        .content()
    )


def short(fittings: tuple[Fitting, ...], room: int) -> str:
    """Return what is installed in a few letters: "bow scr"."""
    words = []
    for fitting in fittings:
        word = SHORT.get(fitting.what, fitting.what.split()[0][:6])
        words.append(f"{fitting.count} {word}" if fitting.count != 1 else word)
    return " ".join(words)[: max(0, room)]
