"""The rack as a list: every item with its number, kind, length, state, checks, what comes of it.

The checks stand in one letter each, under DVTI for drift, visual, thread and inspection: `+` is
passed, `F` failed, `.` not made. They take no room where no check is kept.
"""

from __future__ import annotations

from dataclasses import dataclass

from textual.content import Content

from screens.ink import ATTENTION, BOLD, CURSOR, INK, QUIET, Line, rule
from tally.job.checks import drift_kept, marks
from tally.job.counts import coming
from tally.job.entry import clock
from tally.job.job import ON_RACK, RUN, Item, Job, Made

NUMBER, KIND, LENGTH, STATE, WHAT = 13, 15, 37, 39, 50
MARKS = len("DVTI") + 1
"""Columns that the checks take, where there are any."""
TYPED, PIPE = 86, 88
ROOMY = 100
"""Columns from which on the typed length and the pipe have room too."""


@dataclass(frozen=True, slots=True)
class RackRow:
    """One line of the rack; an item that was never received has neither kind nor length."""

    number: str
    kind: str
    length: str
    state: str
    what: str
    typed: str = ""
    pipe: str = ""
    role: str = INK
    marks: str = ""


def rack_rows(job: Job) -> tuple[RackRow, ...]:
    """Return every item in the running order, then what the order leaves out."""
    made = {each.number: each for each in job.string}
    turn = {item.number: place for place, item in enumerate(coming(job), start=1)}
    listed = set(job.order)
    numbers = (*job.order, *(number for number in job.items if number not in listed))
    return tuple(
        _row(job, job.items[number], made.get(number), turn.get(number, 0), number in listed)
        if number in job.items
        else _never_received(number)
        for number in dict.fromkeys(numbers)
    )


def _row(job: Job, item: Item, made: Made | None, turn: int, listed: bool) -> RackRow:
    what = item.reason
    if item.state == RUN and made is not None:
        what = f"{ordinal(made.joint)} joint  {clock(made.at)}" if made.joint else clock(made.at)
    elif item.state == ON_RACK:
        what = _waiting(job, turn, listed, item.number in job.aside)
    due = turn == 1 and job.landing is None
    return RackRow(
        item.number,
        item.kind,
        job.known.step.show(item.length),
        item.state,
        what,
        item.typed,
        item.pipe or job.known.pipes[0].name,
        BOLD if due else INK if item.state == ON_RACK else QUIET,
        _marks(job, item.number),
    )


def checks_kept(job: Job) -> bool:
    """Whether there is any check to show, or a drift is wanted of every joint."""
    return bool(job.checks) or drift_kept(job)


def _marks(job: Job, number: str) -> str:
    """Return the checks of an item in one letter each; nothing where none is kept."""
    if not checks_kept(job):
        return ""
    return "".join("." if one is None else "+" if one.passed else "F" for one in marks(job, number))


def _waiting(job: Job, turn: int, listed: bool, aside: bool) -> str:
    if aside:
        return "set aside"
    if job.landing is not None or not turn:
        return "" if listed else "not in the order"
    when = "NEXT" if turn == 1 else ordinal(turn)
    if not listed:
        return f"{when}, not in order"
    return when if turn == 1 else f"{when} to come"


def _never_received(number: str) -> RackRow:
    return RackRow(number, "-", "-", "missing", "never received", role=ATTENTION)


def rack_title(job: Job, width: int) -> Content:
    """Return the ruled line over the list."""
    kept = checks_kept(job)
    what = WHAT + (MARKS if kept else 0)
    titles = [
        (NUMBER + 1, "no."),
        (KIND + 5, "kind"),
        (LENGTH + 1, f"length, {job.known.step.unit}"),
        (STATE + 6, "state"),
        *([(WHAT + 5, "DVTI")] if kept else []),
        (what + 12, "turn or why") if kept else (what + 19, "turn, place or why"),
    ]
    if width >= ROOMY:
        titles += [(TYPED + 1, "as typed"), (PIPE + 5, "pipe")]
    return rule(width, *titles)


def rack_line(row: RackRow, width: int, *, cursor: bool) -> Content:
    """Return one row, reversed and marked where the cursor stands."""
    style = CURSOR if cursor else row.role
    roomy = width >= ROOMY
    what = WHAT + (MARKS if row.marks else 0)
    drawn = (
        Line(width)
        .put(0, ">" if cursor else "", style)
        .end(NUMBER, own_number(row.number, row.kind), style)
        .put(KIND, row.kind, style)
        .end(LENGTH, row.length, style)
        .put(STATE, row.state, style)
        .put(WHAT, row.marks, style)
        .put(what, _cut(row.what, (TYPED - 12 if roomy else width) - what), style)
    )
    if roomy:
        drawn.end(TYPED, _cut(row.typed, 11), style).put(PIPE, row.pipe, style)
    return drawn.put(width - 1, " ", style).content(fill_style=style if cursor else INK)


def own_number(number: str, kind: str) -> str:
    """Return the number of an item; nothing where it is called by its kind alone.

    >>> own_number("shoe", "shoe"), own_number("P1", "pup")
    ('', 'P1')
    """
    return "" if number.casefold() == kind else number


def _cut(text: str, room: int) -> str:
    return text if len(text) <= room else f"{text[: room - 2]}.."


def ordinal(number: int) -> str:
    """Return a number as a place: 1st, 2nd, 11th.

    >>> [ordinal(number) for number in (1, 22, 13, 104)]
    ['1st', '22nd', '13th', '104th']
    """
    ending = {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{'th' if 10 <= number % 100 <= 20 else ending}"
