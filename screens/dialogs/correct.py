"""Correct an entry: name it, change what was wrong or strike it, and say why."""

from __future__ import annotations

from typing import Any

from screens.acts import say
from screens.dialogs.correctable import MAKERS, Change
from screens.dialogs.correction_form import ACT, CHANGE, REASON, STRIKE, UNTOUCHED, CorrectionForm
from screens.dialogs.form import Field, Form
from screens.dialogs.values import (
    steps_text,
    whole_number,
)
from screens.ink import cut
from screens.pages.page import Page
from tally.errors import InputError
from tally.job.entries.correction import Correction
from tally.job.entries.pipe import Received
from tally.job.entries.pumping import Pumped
from tally.job.entries.readings import Readings
from tally.job.entries.running import ItemRun
from tally.job.entries.watching import TankRead
from tally.job.entry import Entry, clock, to_fields
from tally.job.fold import effective
from tally.job.job import Job
from tally.job.stored import to_fields as plain_fields

REASONS = ("written down wrongly", "read wrongly", "entered twice")
OWN = ("kind", "by", "at", "seq")


async def correct_an_entry(page: Page) -> None:
    """Ask which entry, then what stands in its place."""
    entries = page.shoedown.book.entries
    recent = [
        cut(f"{entry.seq:>5}  {clock(entry.at)}  {entry.worded(page.job)}", 71)
        for entry in [each for each in entries if _by_hand(each)][-8:]
    ]
    which = await page.app.push_screen_wait(
        Form(
            "Correct an entry",
            [
                Field(
                    "which",
                    "Entry number, or j and a joint's number for its length",
                    lambda text: _find(page, text),
                    value=str(_last_number(entries)),
                )
            ],
            says="\n".join(recent),
        )
    )
    if which:
        await _change(page, *which["which"])


async def correct_run(page: Page, number: str) -> None:
    """Correct the entry that ran an item."""
    entries = effective(page.shoedown.book.entries)
    runs = [each for each in entries if isinstance(each, ItemRun) and each.number == number]
    if runs:
        await _change(page, runs[-1], "")
    else:
        page.refuse(f"No entry ran {number}; look at the number.")


def _last_number(entries: tuple[Entry, ...]) -> int:
    return next((entry.seq for entry in reversed(entries) if _by_hand(entry)), 1)


def _by_hand(entry: Entry) -> bool:
    """Whether a person made an entry, and no gauge; a correction is not corrected itself."""
    if isinstance(entry, Pumped) and entry.source:
        return False
    return not isinstance(entry, Correction | Readings)


def _find(page: Page, text: str) -> tuple[Entry, str]:
    entries = effective(page.shoedown.book.entries)
    if text[:1] in "jJ":
        return _length_entry(page.job, entries, text[1:].strip())
    seq = whole_number(text)
    found = next((entry for entry in entries if entry.seq == seq), None)
    if found is None or isinstance(found, Correction):
        raise InputError(f"Entry {seq} cannot be corrected; it is struck, or no entry of its own.")
    return found, ""


def _length_entry(job: Job, entries: tuple[Entry, ...], number: str) -> tuple[Entry, str]:
    if number not in job.items:
        raise InputError(f"There is no joint {number} in the book; check the number.")
    runs = [e for e in entries if isinstance(e, ItemRun) and e.number == number and e.length]
    if runs:
        return runs[-1], number
    for entry in entries:
        if isinstance(entry, Received) and any(one.number == number for one in entry.items):
            return entry, number
    raise InputError(f"The length of {number} was set up with the job; change it there.")


async def _change(page: Page, entry: Entry, number: str) -> None:
    changes = _changes(page.job, entry, number)
    acts = _acts(changes, number)
    what = cut(entry.worded(page.job), 60) if not number else f"joint {number}"
    answer = await page.app.push_screen_wait(
        CorrectionForm(
            f"Entry {entry.seq}: {what}",
            [
                *_what(acts, number),
                *(field for field, _ in changes),
                Field(REASON, "Why", choices=REASONS, open=True),
            ],
            says="The first entry stays readable beside the correction.",
        )
    )
    if not answer:
        return
    instead: dict[str, Any] | None = None
    if answer.get(ACT, CHANGE) == CHANGE:
        touched = [(put, answer[f.key]) for f, put in changes if answer[f.key] is not UNTOUCHED]
        if not touched:
            page.refuse(f"Nothing was changed; entry {entry.seq} stands as it did.")
            return
        instead = {key: one for key, one in to_fields(entry).items() if key not in OWN}
        for put, read in touched:
            instead.update(put(read))
        instead = _with_origins(to_fields(entry), instead)
    app = page.shoedown
    await say(
        page,
        Correction(by=app.who, at=app.now(), of=entry.seq, reason=answer[REASON], instead=instead),
    )


def _with_origins(was: dict[str, Any], now: dict[str, Any]) -> dict[str, Any]:
    """Return what stands instead; a value that is another one now does not come from the rig."""
    kept = [one for one in was.get("origins", ()) if was.get(one["field"]) == now.get(one["field"])]
    rest = {key: one for key, one in now.items() if key != "origins"}
    return {**rest, "origins": kept} if kept else rest


def _acts(changes: list[Change], number: str) -> tuple[str, ...]:
    """Return what can be done; nothing is struck for the length of one joint."""
    if number:
        return (CHANGE,)
    return (CHANGE, STRIKE) if changes else (STRIKE,)


def _what(acts: tuple[str, ...], number: str) -> list[Field]:
    """Return the question what is to be done; for the length of one joint there is none."""
    return [] if number else [Field(ACT, "What", choices=acts, value=acts[0])]


def _changes(job: Job, entry: Entry, number: str) -> list[Change]:
    """Return the fields of an entry that a person can change, each with how it is put in."""
    if isinstance(entry, Received):
        return [_arrival(job, entry, number)] if number else []
    makers = MAKERS.get(entry.KIND, {})
    if isinstance(entry, TankRead) and not entry.mark:
        makers = {name: make for name, make in makers.items() if name in ("volume", "mark")}
    if number:
        makers = {name: make for name, make in makers.items() if name == "length"}
    return [make(job, entry, name) for name, make in makers.items()]


def _arrival(job: Job, entry: Received, number: str) -> Change:
    step = job.known.step
    listed = next(one for one in entry.items if one.number == number)

    def put(read: tuple[int, str]) -> dict[str, Any]:
        steps, typed = read
        items = [plain_fields(one) for one in entry.items]
        for one in items:
            if one["number"] == number:
                one["length"], one["typed"] = steps, typed
        return {"items": items}

    return (
        Field("length", f"Length of {number}", steps_text(job), listed.typed, hint=step.unit),
        put,
    )
