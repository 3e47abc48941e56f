"""The totals of the rack: to the casing point, by pipe, checks, bundles, the programme."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content

from screens.ink import ATTENTION, INK, QUIET, STATES, Line, line
from tally.job import depths
from tally.job.checks import CHECKS, DRIFT, drift_kept, undrifted
from tally.job.counts import coming
from tally.job.equipment import equipment_list
from tally.job.fittings import installed, programmed
from tally.job.job import ON_RACK, RUN, Job
from tally.job.receiving import Receipt, receipt, receipts

COLUMN = 8


def totals_lines(job: Job, width: int) -> list[Content]:
    """Return every total, in a narrow column or a wide one."""
    parts = (_to_go(job, width), _pipes(job, width), _checks(job, width), _bundles(job, width))
    others = (_programme(job, width), _equipment(job, width))
    lines: list[Content] = []
    for part in (*parts, *others):
        lines += [*([line("")] if lines and part else []), *part]
    return lines


def _to_go(job: Job, width: int) -> list[Content]:
    if job.landing is not None:
        return [_row(width, "on depth, joints left on the rack", str(_left(job)))]
    step = job.known.step
    still = max(0, depths.to_go(job))
    need, spare = depths.joints_to_go(job)
    listed = sum(item.length for item in coming(job))
    spares = ("joints to spare", str(spare)) if spare >= 0 else ("joints short", str(-spare))
    lines = [
        _row(width, "to the casing point", step.with_unit(still)),
        _row(width, "length in the list", step.with_unit(listed)),
        _row(width, "joints needed", str(need)),
        _row(width, *spares, style=INK if spare >= 0 else ATTENTION),
    ]
    aside = sum(job.items[one].kind == "joint" for one in job.aside if one in job.items)
    return [*lines, *([_row(width, "joints set aside", str(aside))] if aside else [])]


def _left(job: Job) -> int:
    return sum(item.state == ON_RACK and item.kind == "joint" for item in job.items.values())


def _pipes(job: Job, width: int) -> list[Content]:
    """Return the joints of each pipe, where there are several."""
    names = [pipe.name for pipe in job.known.pipes]
    if len(names) < 2:
        return []
    joints = [item for item in job.items.values() if item.kind == "joint"]
    lines = [_titles(width, "joints by pipe", "came", "run", "on rack")]
    for name in names:
        own = [item for item in joints if job.known.pipe(item.pipe).name == name]
        run = sum(item.state == RUN for item in own)
        rack = sum(item.state == ON_RACK for item in own)
        lines.append(_columns(width, name, str(len(own)), str(run), str(rack)))
    return lines


def _checks(job: Job, width: int) -> list[Content]:
    """Return how many joints passed and failed each check that was made."""
    made = {what for _, what in job.checks}
    lines = [_titles(width, "checks", "passed", "failed", "none")] if made else []
    for what in (each for each in CHECKS if each in made):
        marks = [mark for (_, kind), mark in job.checks.items() if kind == what]
        passed = sum(mark.passed for mark in marks)
        without = sum(
            item.state == ON_RACK and item.kind == "joint" and (number, what) not in job.checks
            for number, item in job.items.items()
        )
        lines.append(_columns(width, what, str(passed), str(len(marks) - passed), str(without)))
    if drift_kept(job) and DRIFT not in made:
        lines.append(_row(width, "without a drift", str(len(undrifted(job))), style=ATTENTION))
    return lines


def _bundles(job: Job, width: int) -> list[Content]:
    if not job.bundles:
        return []
    lines = [_titles(width, "bundles", "note", "counted", "in book")]
    for bundle in job.bundles.values():
        lines.append(_receipt(width, bundle.name, receipt(job, bundle)))
    whole = receipts(job)
    word = "agrees" if whole.agrees else "check"
    lines.append(_receipt(width, "all", whole))
    lines.append(_row(width, "the three counts", word, style=STATES[word]))
    return lines


def _receipt(width: int, name: str, one: Receipt) -> Content:
    style = INK if one.agrees else ATTENTION
    numbers = (one.noted, one.counted, one.in_book)
    return _columns(width, name, *("-" if n is None else str(n) for n in numbers), style=style)


def _programme(job: Job, width: int) -> list[Content]:
    """Return the pieces of the whole programme against those installed."""
    whole, have = programmed(job), installed(job)
    kinds = dict.fromkeys((*whole, *have))
    lines = [_titles(width, "to install", "in all", "on", "still")] if kinds else []
    for what in kinds:
        still = max(0, whole[what] - have[what])
        lines.append(_columns(width, what, str(whole[what]), str(have[what]), str(still)))
    return lines


def _equipment(job: Job, width: int) -> list[Content]:
    things = equipment_list(job)
    if not things:
        return []
    ready = sum(thing.ready for thing in things)
    style = INK if ready == len(things) else ATTENTION
    said = f"{ready} of {len(things)}"
    return [_row(width, "equipment here and checked", said, style=style)]


def _row(width: int, label: str, text: str, *, style: str = INK) -> Content:
    return Line(width).put(0, label, QUIET).end(width, text, style).content()


def _titles(width: int, label: str, *names: str) -> Content:
    return _placed(width, label, names, QUIET, QUIET)


def _columns(width: int, label: str, *texts: str, style: str = INK) -> Content:
    return _placed(width, label, texts, QUIET, style)


def _placed(width: int, label: str, texts: Sequence[str], label_style: str, style: str) -> Content:
    room = width - COLUMN * len(texts)
    drawn = Line(width).put(0, label[:room], label_style)
    for place, text in enumerate(reversed(texts)):
        drawn.end(width - COLUMN * place, text, style)
    return drawn.content()
