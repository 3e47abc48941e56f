"""Correct an entry: name it, change what was wrong or strike it, and say why."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from screens.acts import say
from screens.dialogs.form import Field, Form
from screens.dialogs.values import (
    fittings_of,
    measure_text,
    numbers_of,
    steps_text,
    whole_number,
)
from screens.pages.page import Page
from tally.errors import InputError
from tally.job.entries.correction import Correction
from tally.job.entries.pipe import Received
from tally.job.entries.pumping import Pumped
from tally.job.entries.readings import Readings
from tally.job.entries.running import ItemRun
from tally.job.entry import Entry, clock, to_fields
from tally.job.fold import effective
from tally.job.job import Job
from tally.job.naming import in_short
from tally.job.stored import to_fields as plain_fields
from tally.units import clean

CHANGE, STRIKE = "change it", "strike it: it did not happen"
REASONS = ("written down wrongly", "read wrongly", "entered twice")
OWN = ("kind", "by", "at", "seq")

Change = tuple[Field, Callable[[Any], dict[str, Any]]]


async def correct_an_entry(page: Page) -> None:
    """Ask which entry, then what stands in its place."""
    entries = page.shoedown.book.entries
    recent = [
        f"{entry.seq:>5}  {clock(entry.at)}  {entry.worded(page.job)}"[:70]
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
    what = entry.worded(page.job)[:60] if not number else f"joint {number}"
    answer = await page.app.push_screen_wait(
        Form(
            f"Entry {entry.seq}: {what}",
            [
                *_what(acts, number),
                *(field for field, _ in changes),
                Field("reason", "Why", choices=REASONS, open=True),
            ],
            says="The first entry stays readable beside the correction.",
        )
    )
    if not answer:
        return
    instead: dict[str, Any] | None = None
    if answer.get("act", CHANGE) == CHANGE:
        instead = {key: one for key, one in to_fields(entry).items() if key not in OWN}
        for field, put in changes:
            instead.update(put(answer[field.key]))
        instead = _with_origins(to_fields(entry), instead)
    app = page.shoedown
    await say(
        page,
        Correction(
            by=app.who, at=app.now(), of=entry.seq, reason=answer["reason"], instead=instead
        ),
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
    return [] if number else [Field("act", "What", choices=acts, value=acts[0])]


def _changes(job: Job, entry: Entry, number: str) -> list[Change]:
    """Return the fields of an entry that a person can change, each with how it is put in."""
    if isinstance(entry, Received):
        return [_arrival(job, entry, number)] if number else []
    makers = _MAKERS.get(entry.KIND, {})
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


def _text(_job: Job, entry: Entry, name: str) -> Change:
    label = name.replace("_", " ").capitalize()
    value = str(getattr(entry, name))
    key = "its_reason" if name == "reason" else name  # the correction wants a reason of its own
    return Field(key, label, clean, value, optional=not value), lambda read: {name: read or ""}


def _whole(_job: Job, entry: Entry, name: str) -> Change:
    value = getattr(entry, name)
    shown = "" if value is None else str(value)
    optional = value is None
    return (
        Field(name, name.capitalize(), whole_number, shown, optional=optional),
        lambda read: {name: read},
    )


def _measure(quantity: str) -> Callable[[Job, Entry, str], Change]:
    def make(job: Job, entry: Entry, name: str) -> Change:
        value = getattr(entry, name)
        unit = job.known.shown.unit(quantity)
        shown = value.text if value else ""
        return (
            Field(
                name,
                name.replace("_", " ").capitalize(),
                measure_text(quantity, unit),
                shown,
                optional=not value,
                hint=unit,
            ),
            lambda read: {name: read},
        )

    return make


def _steps(name_typed: str) -> Callable[[Job, Entry, str], Change]:
    def make(job: Job, entry: Entry, name: str) -> Change:
        typed = str(getattr(entry, name_typed))
        optional = getattr(entry, name) is None
        hint = f"{job.known.step.unit}; empty: as listed" if optional else job.known.step.unit
        label = name.replace("_", " ").capitalize()
        return (
            Field(
                name,
                label,
                steps_text(job, loss=name == "length"),
                typed,
                optional=optional,
                hint=hint,
            ),
            lambda read: {} if read is None else {name: read[0], name_typed: read[1]},
        )

    return make


def _fittings(_job: Job, entry: Entry, name: str) -> Change:
    shown = ", ".join(str(each) for each in getattr(entry, name)) or "-"
    return (
        Field(name, "Installed", fittings_of, shown, hint="a dash: nothing"),
        lambda read: {name: [plain_fields(each) for each in read]},
    )


def _flag(yes: str, no: str) -> Callable[[Job, Entry, str], Change]:
    def make(_job: Job, entry: Entry, name: str) -> Change:
        value = yes if getattr(entry, name) else no
        field = Field(name, name.capitalize(), choices=(yes, no), value=value)
        return field, lambda read: {name: read == yes}

    return make


def _numbers(job: Job, entry: Entry, name: str) -> Change:
    shown = in_short(getattr(entry, name))
    return (
        Field(name, "Joints", numbers_of(job), shown, optional=not shown, hint="1-40, 43"),
        lambda read: {name: list(read or ())},
    )


_MAKERS: dict[str, dict[str, Callable[[Job, Entry, str], Change]]] = {
    "item run": {
        "number": _text,
        "length": _steps("typed"),
        "fittings": _fittings,
        "torque": _measure("torque"),
        "position": _text,
        "lowering": _measure("lowering time"),
    },
    "rejected": {"number": _text, "reason": _text},
    "laid down": {"number": _text, "reason": _text},
    "sent away": {"number": _text, "reason": _text},
    "fitted": {"fittings": _fittings},
    "trip tank read": {"volume": _measure("volume")},
    "filled": {"volume": _measure("volume")},
    "weight read": dict.fromkeys(("slack_off", "pick_up", "hanging"), _measure("force")),
    "auto-fill converted": {"pressure": _measure("pressure"), "rate": _measure("flow rate")},
    "pipe moved": {
        "stroke": _measure("length"),
        "strokes": _measure("stroke rate"),
        "rotation": _measure("rotary speed"),
        "torque": _measure("torque"),
        "slack_off": _measure("force"),
        "pick_up": _measure("force"),
        "note": _text,
    },
    "pipe movement stopped": {"reason": _text},
    "flow check": {"state": _text, "time": _measure("time"), "note": _text},
    "tight spot": {
        "depth": _measure("length"),
        "overpull": _measure("force"),
        "set_down": _measure("force"),
        "done": _text,
    },
    "stuck": {"note": _text},
    "pipe free": {"how": _text},
    "losses": {"volume": _measure("volume"), "rate": _measure("flow rate"), "note": _text},
    "shut in": {
        "gain": _measure("volume"),
        "annulus_pressure": _measure("pressure"),
        "pipe_pressure": _measure("pressure"),
        "note": _text,
    },
    "well open": {"note": _text},
    "dropped": {"what": _text, "where": _text, "note": _text},
    "crew change": {"lead": _text, "told": _text},
    "fitting missed": {"number": _text, "reason": _text},
    "on depth": {"stick_up": _steps("typed"), "counted": _whole},
    "hung off": {"load": _measure("force"), "how": _text},
    "pumped": {
        "tank": _measure("volume"),
        "strokes": _whole,
        "pressure": _measure("pressure"),
        "rate": _measure("flow rate"),
    },
    "list started": {"why": _text},
    "mixing read": {
        "fluid": _text,
        **dict.fromkeys(("gauge", "balance"), _measure("density")),
        "pumped": _measure("volume"),
        "sacks": _whole,
        "cement": _measure("mass"),
        "mix_fluid": _measure("volume"),
    },
    "sample kept": {"fluid": _text, "part": _text, "note": _text},
    "seen at surface": {
        "what": _text,
        "volume": _measure("volume"),
        "density": _measure("density"),
    },
    "pumped back in": {"volume": _measure("volume"), "decided": _text},
    "shoe tested": {"how": _text, "held": _flag("held", "did not hold"), "cleared": _text},
    "rate and pressure": {"rate": _measure("flow rate"), "pressure": _measure("pressure")},
    "step done": {"state": _text, "value": _text, "witness": _text, "note": _text},
    "note": {"text": _text},
    "notice given": dict.fromkeys(("to", "about", "means", "given", "when", "answer"), _text),
    "calibration noted": dict.fromkeys(("what", "serial", "day", "due", "done_by", "note"), _text),
    "time lost": {"cause": _text, "time": _measure("time"), "note": _text},
    "pressure tested": {
        "what": _text,
        **dict.fromkeys(("pressure", "ended"), _measure("pressure")),
        "time": _measure("time"),
        "held": _flag("held", "did not hold"),
        "device": _text,
        "note": _text,
    },
    "handed over": {"to": _text, "watch": _text},
    "bundle counted": {
        "bundle": _text,
        "noted": _whole,
        "counted": _whole,
        "numbers": _numbers,
    },
    "checked": {
        "numbers": _numbers,
        "passed": _flag("passed", "failed"),
        "who": _text,
        "mandrel": _measure("diameter"),
        "note": _text,
    },
    "equipment noted": {
        "here": _flag("yes", "no"),
        "checked": _flag("yes", "no"),
        "supplier": _text,
        "note": _text,
    },
    "order set": {"reason": _text},
}
