"""The block of ten: the page of the pocket tally, with its total brought forward."""

from __future__ import annotations

from textual.content import Content

from screens.ink import BOLD, INK, QUIET, Line, rule
from tally.job import depths
from tally.job.entry import clock
from tally.job.job import LAID_DOWN, REJECTED, Fitting, Job, Made

ROWS = 10
SHORT = {"bow centralizer": "bow", "rigid centralizer": "rigid", "scratcher": "scr"}


def block(job: Job, width: int, rows: int = ROWS) -> list[Content]:
    """Return the block that is being written: title, brought forward, rows, and so far."""
    first = _first_of_block(job)
    items = job.string[first:]
    shown = items[-rows:]
    step = job.known.step
    forward = shown[0].top - shown[0].length if shown else job.length
    joints = [made for made in items if made.joint]
    lines = [rule(width, *_titles(job, width)), _forward(width, step.show(forward))]
    lines += [_row(job, made, width, made is job.string[-1]) for made in shown]
    lines += [Line(width).put(1, ".", QUIET).content()] * (rows - len(shown))
    total = sum(made.length for made in items)
    lines.append(_so_far(job, width, len(joints), step.show(total)))
    return lines


def _first_of_block(job: Job) -> int:
    """Return the place in the string where the block of ten joints starts."""
    if not job.string:
        return 0
    before = (max(job.joints_run, 1) - 1) // ROWS * ROWS
    if before == 0:
        return 0
    return next(place + 1 for place, made in enumerate(job.string) if made.joint == before)


def _titles(job: Job, width: int) -> tuple[tuple[int, str], ...]:
    start = (max(job.joints_run, 1) - 1) // ROWS * ROWS + 1
    return (
        (15, f"joints {start}-{start + ROWS - 1}"),
        (21, "no."),
        (30, "length"),
        (41, "to here"),
        (52, "shoe"),
        (width - 7, "installed"),
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
        .end(20, made.number if made.joint else "", style)
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
        .put(1, f"so far {joints} joints", QUIET)
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
